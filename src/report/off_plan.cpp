#include "report/off_plan.hpp"

#include <algorithm>

#include "placing/mirror.hpp"
#include "plan/plan.hpp"
#include "report/in_mouths.hpp"

namespace norma::report {
namespace {

using margins::Error;

std::vector<Spread> spreads_of(const model::View& view, const margins::Standing& planned) {
  std::vector<Spread> out;
  for (const margins::ErrorRow& row : margins::error_rows()) {
    if (!margins::applies(row.what, planned)) continue;
    Spread one{row.what, margins::spread_row(row.what).value, Spread::By::assumed};
    const auto by_tolerance = [&](double tolerance) {
      one.size = tolerance / margins::deviations_in_a_tolerance;
      one.by = Spread::By::tolerance;
    };
    const bool angle = row.what == Error::camera_sideways || row.what == Error::camera_height;
    if (angle && view.tolerance_angle.known()) by_tolerance(view.tolerance_angle.get().in(degree));
    if (row.what == Error::camera_distance && view.tolerance_distance.known())
      by_tolerance(view.tolerance_distance.get().in(mm));
    out.push_back(one);
  }
  return out;
}

void look(ViewOffPlan& of, const margins::Standing& planned, const Shots& shots) {
  of.margins = margins::margins_of(planned, shots.threads);
  of.spreads = spreads_of(*of.view->view, planned);
  if (of.margins->fails || shots.shots == 0) return;
  margins::Spreads sizes{};
  for (const Spread& s : of.spreads)
    sizes[static_cast<std::size_t>(s.what)] = s.size;
  of.together = margins::together(planned, sizes, shots.shots, shots.seed, shots.threads);
}

} // namespace

std::vector<OffPlan> off_plan(const Report& report, const std::vector<std::string>& views,
                              const Shots& shots) {
  std::vector<OffPlan> out;
  for (const Held& held : report.held) {
    OffPlan one{&held, {}};
    for (std::size_t i = 0; i < held.plan.views.size(); ++i) {
      const plan::ViewPlan& view = held.plan.views[i];
      const bool asked =
          views.empty() || std::find(views.begin(), views.end(), view.view->name) != views.end();
      if (!asked) continue;
      ViewOffPlan of;
      of.about = held.about;
      of.view = &view;
      of.about.view = static_cast<int>(i);
      const placing::Setting* setting = view.work->setting.get();
      auto pose = setting != nullptr ? placing::pose_of(*setting) : std::nullopt;
      if (pose) {
        look(of, margins::standing(*setting, std::move(*pose)), shots);
      } else {
        of.missing = why_not_looked_at(view);
      }
      one.views.push_back(std::move(of));
    }
    out.push_back(std::move(one));
  }
  return out;
}

} // namespace norma::report
