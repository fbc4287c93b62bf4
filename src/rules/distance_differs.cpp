#include "rules/rules.hpp"

namespace norma::rules {

void distance_differs(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (plan::exceeds(v.facts, fact::distance_off, fact::distance_tolerance)) {
    auto& d = out.report(
        diag::make(catalogue::distance_differs, v.view->distance.span(), v.facts.value(fact::ratio),
                   v.facts.value(fact::working_distance), v.facts.value(fact::distance_asked)));
    d.with_evidence(
        evidence(v.facts, fact::distance_off, diag::Relation::at_most, fact::distance_tolerance));
    d.with_help(note::distance_differs_ask(v.facts.value(fact::working_distance)));
    if (v.facts.has(fact::ratio_at_distance))
      d.with_help(note::distance_differs_ratio(v.facts.value(fact::ratio_at_distance)));
  }
}

} // namespace norma::rules
