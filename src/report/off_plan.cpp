#include "report/off_plan.hpp"

#include <algorithm>

#include "placing/mirror.hpp"
#include "plan/plan.hpp"
#include "report/in_mouths.hpp"

namespace norma::report {

std::vector<OffPlan> off_plan(const Report& report, const std::vector<std::string>& views,
                              unsigned threads) {
  std::vector<OffPlan> out;
  for (const Held& held : report.held) {
    OffPlan one{&held, {}};
    for (std::size_t i = 0; i < held.plan.views.size(); ++i) {
      const plan::ViewPlan& view = held.plan.views[i];
      const bool asked =
          views.empty() || std::find(views.begin(), views.end(), view.view->name) != views.end();
      if (!asked) continue;
      ViewOffPlan of{held.about, &view, {}, {}};
      of.about.view = static_cast<int>(i);
      const placing::Setting* setting = view.work->setting.get();
      auto pose = setting != nullptr ? placing::pose_of(*setting) : std::nullopt;
      if (pose) {
        of.margins = margins::margins_of(margins::standing(*setting, std::move(*pose)), threads);
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
