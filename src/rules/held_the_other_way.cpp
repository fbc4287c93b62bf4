#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

void held_the_other_way(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto& held = v.view->camera_held;
  if (!held.known()) return;
  const bool upright = held.get() == model::CameraHeld::upright;
  const auto here = v.facts.get(fact::ratio_that_fits);
  const auto there = v.facts.get(fact::ratio_that_fits_other_hold);
  constexpr double clearly = 1.1;
  const bool fits_better = here && there && there->value() > clearly * here->value();
  const bool level_head = !upright && v.view->shows(model::Thing::whole_head);
  if (!fits_better && !level_head) return;
  const diag::Said level = note::held_the_other_way_level();
  const diag::Said stood = note::held_the_other_way_upright();
  const diag::Said& now = upright ? stood : level;
  const diag::Said& other = upright ? level : stood;
  auto& d = out.report(diag::make(catalogue::held_the_other_way, held.span(), now, other));
  if (fits_better) {
    d.with_note(note::held_the_other_way_fits(*here, *there));
  } else {
    d.with_note(note::held_the_other_way_head());
  }
  d.with_help(note::held_the_other_way_hold(other));
}

} // namespace norma::rules
