#include "rules/rules.hpp"

namespace norma::rules {

void guide_keeps_other_distance(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto off = v.facts.get(fact::guide_off);
  const auto tolerance = v.facts.get(fact::guide_tolerance);
  if (!off || !tolerance || *off <= *tolerance) return;
  auto& d = out.report(diag::make(catalogue::guide_keeps_other_distance, place_of(v.view->guide, v),
                              v.facts.text(fact::guide_keeps), v.facts.text(fact::ratio),
                              v.facts.text(fact::working_distance)));
  d.with_evidence(
      evidence(v.facts, fact::guide_off, diag::Relation::at_most, fact::guide_tolerance));
  d.with_label(c.kit->guides->front().keeps.span(), "the kit's guide");
  d.with_help("measure both again: guide and lens belong together");
}

} // namespace norma::rules
