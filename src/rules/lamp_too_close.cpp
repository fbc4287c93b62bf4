#include "rules/rules.hpp"

namespace norma::rules {

void lamp_too_close(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto distance = v.facts.get(fact::lamp_distance);
  const auto radius = v.facts.get(fact::ring_radius);
  if (!distance || !radius || *distance >= *radius) return;
  auto& d = out.report(diag::make(catalogue::lamp_too_close, place_of(v.view->ratio, v),
                              v.facts.text(fact::lamp_distance), v.facts.text(fact::ring_radius)));
  d.with_evidence(
      evidence(v.facts, fact::lamp_distance, diag::Relation::at_least, fact::ring_radius));
  d.with_label(v.chosen.lamp->radius.span(), "the kit's ring");
  d.with_note("from nearer than that its light comes from more than 45 degrees aside: the middle "
              "grows dark, and lips stand in its way");
  d.with_help("a smaller image is had from farther away; a smaller ring reaches closer");
}

} // namespace norma::rules
