#include "rules/rules.hpp"

namespace norma::rules {

void focus_beside_sharp_teeth(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto off = v.facts.get(fact::focus_off);
  if (!off || !v.facts.get(fact::aperture)) return; // where no aperture holds, that is said
  auto& d = out.report(diag::make(catalogue::focus_beside_sharp_teeth, place_of(v.view->focus, v),
                                  v.facts.value(fact::focus), v.facts.text(fact::focus_off)));
  d.with_note("sharp depth lies on both sides of the focus: one side of it is given away");
  d.with_help("focus on a tooth about the middle of those that must be sharp");
}

} // namespace norma::rules
