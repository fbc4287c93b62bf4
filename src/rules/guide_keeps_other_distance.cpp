#include "rules/rules.hpp"

namespace norma::rules {

void guide_keeps_other_distance(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto off = v.facts.get(fact::guide_off);
  const auto tolerance = v.facts.get(fact::guide_tolerance);
  if (!off || !tolerance || *off <= *tolerance) return;
  auto& d = out.report(diag::make(catalogue::guide_keeps_other_distance, place_of(v.view->guide, v),
                                  v.facts.value(fact::guide_keeps), v.facts.value(fact::ratio),
                                  v.facts.value(fact::working_distance)));
  d.with_evidence(
      evidence(v.facts, fact::guide_off, diag::Relation::at_most, fact::guide_tolerance));
  d.with_label(c.kit->guides->front().keeps.span(), note::guide_keeps_other_distance_guide());
  d.with_help(note::guide_keeps_other_distance_measure());
}

} // namespace norma::rules
