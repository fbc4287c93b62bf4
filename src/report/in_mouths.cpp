#include "report/in_mouths.hpp"

#include <algorithm>

#include "diag/questions.hpp"
#include "facts/facts.hpp"
#include "plan/many_mouths.hpp"
#include "plan/plan.hpp"

namespace norma::report {
namespace {

using mouths::Varies;

bool measured(const plan::ViewPlan& view, const facts::FactRow& row) {
  const facts::Fact* found = view.facts.find(row);
  return found != nullptr && found->status == facts::Status::measured;
}

} // namespace

diag::Said why_not_looked_at(const plan::ViewPlan& view) {
  for (const plan::OpenQuestion& q : view.open) {
    if (q.what.row == &diag::question::scene_hidden) return q.missing;
  }
  return view.view->kind == model::ViewKind::face ? diag::missing::model_of_a_face()
                                                  : diag::missing::what_must_show();
}

std::vector<InMouths> in_mouths(const Report& report, const Amount& amount) {
  std::vector<InMouths> out;
  for (const Held& held : report.held) {
    InMouths one;
    one.held = &held;
    const mouths::Group group =
        plan::group_of_patients(held.kit.get(), plan::dentition_of(*held.protocol));
    one.dentition = group.dentition;
    const mouths::Mouths drawn = mouths::draw(group, amount.mouths, amount.seed, amount.threads);
    one.asked = drawn.asked;
    one.left_out = drawn.left_out();
    one.spaced = drawn.spaced;
    for (std::size_t i = 0; i < held.plan.views.size(); ++i) {
      const plan::ViewPlan& view = held.plan.views[i];
      ViewInMouths in;
      in.about = held.about;
      in.about.view = static_cast<int>(i);
      in.view = &view;
      if (view.work->setting == nullptr) {
        in.missing = why_not_looked_at(view);
        one.views.push_back(std::move(in));
        continue;
      }
      const placing::Setting& setting = *view.work->setting;
      in.opens_wide = setting.opening && !view.view->least_opening.known();
      mouths::Group of_view = group;
      std::optional<mouths::Mouths> alike;
      // Where this clinic holds the corners of mouths is measured: its patients are taken as alike.
      if (measured(view, facts::fact::corner_side)) {
        of_view.spread[static_cast<std::size_t>(Varies::corner_aside)] = 0;
        of_view.spread[static_cast<std::size_t>(Varies::corner_back)] = 0;
        alike = drawn;
        for (mouths::Drawn& mouth : alike->drawn)
          mouth = mouths::with_corners_alike(std::move(mouth));
      }
      in.shares = mouths::shares_of(setting, alike ? *alike : drawn, in.opens_wide, amount.threads);
      if (in.shares->hold > 0 && in.shares->hold < in.shares->mouths) {
        const std::size_t points = std::clamp<std::size_t>(amount.mouths / 16, 16, 1024);
        in.hangs =
            mouths::hangs_on(setting, of_view, in.opens_wide, points, amount.seed, amount.threads);
      }
      one.views.push_back(std::move(in));
    }
    out.push_back(std::move(one));
  }
  return out;
}

} // namespace norma::report
