#include "rules/rules.hpp"

namespace norma::rules {

void aperture_out_of_reach(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto asked = v.facts.get(fact::aperture_asked);
  const auto reach = v.facts.get(fact::aperture_reach);
  if (!asked || !reach) return;
  out.report(diag::make(catalogue::aperture_out_of_reach, place_of(v.view->aperture, v), *asked,
                        *reach))
      .with_help(note::aperture_out_of_reach_ask());
}

} // namespace norma::rules
