#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

void held_the_other_way(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto& held = v.view->camera_held;
  if (!held.known()) return;
  const bool upright = held.get() == "upright";
  const auto here = v.facts.get(fact::ratio_that_fits);
  const auto there = v.facts.get(fact::ratio_that_fits_other_hold);
  constexpr double clearly = 1.1;
  const bool fits_better = here && there && there->value() > clearly * here->value();
  const auto& things = v.view->things_shown;
  const bool level_head = !upright && things.known() &&
                          std::find(things->begin(), things->end(), "whole head") != things->end();
  if (!fits_better && !level_head) return;
  auto& d = out.report(diag::make(catalogue::held_the_other_way, held.span(), held.get(),
                              upright ? "level" : "upright"));
  if (fits_better) {
    d.with_note(fmt::format("what must show fits up to {} here, and up to {} the other way",
                            v.facts.text(fact::ratio_that_fits),
                            v.facts.text(fact::ratio_that_fits_other_hold)));
  } else {
    d.with_note("a head is taller than it is wide");
  }
  d.with_help(fmt::format("hold the camera {}", upright ? "level" : "upright"));
}

} // namespace norma::rules
