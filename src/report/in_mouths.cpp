#include "report/in_mouths.hpp"

#include <algorithm>

#include "diag/questions.hpp"
#include "facts/facts.hpp"
#include "plan/plan.hpp"

namespace norma::report {
namespace {

using mouths::Varies;

/// What the clinic has measured itself varies no more.
mouths::Group group_of(const Held& held) {
  namespace d = physics::defaults;
  mouths::Group out =
      mouths::group_of(plan::dentition_of(*held.protocol), plan::sizes_of_patients(held.kit.get()));
  if (held.kit == nullptr) return out;
  const auto fixed = [&](Varies what) { out.spread[static_cast<std::size_t>(what)] = 0; };
  const std::pair<Varies, std::initializer_list<const physics::Default*>> of_rows[] = {
      {Varies::upper_canines,
       {&d::upper_canine_width, &d::upper_canine_width_mixed, &d::upper_canine_width_milk}},
      {Varies::lower_canines,
       {&d::lower_canine_width, &d::lower_canine_width_mixed, &d::lower_canine_width_milk}},
      {Varies::upper_molars,
       {&d::upper_molar_width, &d::upper_molar_width_mixed, &d::upper_molar_width_milk}},
      {Varies::lower_molars,
       {&d::lower_molar_width, &d::lower_molar_width_mixed, &d::lower_molar_width_milk}},
      {Varies::overjet, {&d::overjet}},
      {Varies::overbite, {&d::overbite}},
      {Varies::palate, {&d::palate_height}}};
  for (const kit::OwnValue& own : held.kit->anatomy) {
    if (!own.value.known() || !physics::counts_for(*own.which, out.dentition)) continue;
    for (const auto& [what, rows] : of_rows) {
      if (std::find(rows.begin(), rows.end(), own.which) != rows.end()) fixed(what);
    }
  }
  if (!held.kit->teeth.empty()) fixed(Varies::tooth_size);
  if (held.kit->mouths.opened_wide.known()) fixed(Varies::opening);
  return out;
}

bool measured(const plan::ViewPlan& view, const facts::FactRow& row) {
  const facts::Fact* found = view.facts.find(row);
  return found != nullptr && found->status == facts::Status::measured;
}

diag::Said why_not(const plan::ViewPlan& view) {
  for (const plan::OpenQuestion& q : view.open) {
    if (q.what.row == &diag::question::scene_hidden) return q.missing;
  }
  return view.view->kind == model::ViewKind::face ? diag::missing::model_of_a_face()
                                                  : diag::missing::what_must_show();
}

} // namespace

std::vector<InMouths> in_mouths(const Report& report, const Amount& amount) {
  std::vector<InMouths> out;
  for (const Held& held : report.held) {
    InMouths one;
    one.held = &held;
    const mouths::Group group = group_of(held);
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
        in.missing = why_not(view);
        one.views.push_back(std::move(in));
        continue;
      }
      const placing::Setting& setting = *view.work->setting;
      in.opens_wide = setting.opening && !view.view->least_opening.known();
      // Where this clinic holds the corners of mouths is measured: its patients are taken as alike.
      mouths::Group of_view = group;
      const bool corner = measured(view, facts::fact::corner_side);
      if (corner) {
        of_view.spread[static_cast<std::size_t>(Varies::corner_aside)] = 0;
        of_view.spread[static_cast<std::size_t>(Varies::corner_back)] = 0;
      }
      mouths::Mouths own = drawn;
      if (corner) {
        for (mouths::Drawn& mouth : own.drawn)
          mouth.corner_aside = mouth.corner_back = Length{};
      }
      in.shares = mouths::shares_of(setting, own, in.opens_wide, amount.threads);
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
