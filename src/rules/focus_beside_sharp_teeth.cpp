#include "rules/rules.hpp"

namespace norma::rules {

void focus_beside_sharp_teeth(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto off = v.facts.get(fact::focus_off);
  if (!off || v.facts.has(fact::not_held) || !v.facts.get(fact::aperture))
    return; // where no aperture holds, that is said
  auto& d = out.report(diag::make(catalogue::focus_beside_sharp_teeth, place_of(v.view->focus, v),
                                  v.facts.value(fact::focus), *off));
  d.with_note(note::focus_beside_sharp_teeth_given_away());
  d.with_help(note::focus_beside_sharp_teeth_middle());
}

} // namespace norma::rules
