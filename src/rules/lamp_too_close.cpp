#include "rules/rules.hpp"

namespace norma::rules {

void lamp_too_close(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto distance = v.facts.get(fact::lamp_distance);
  const auto radius = v.facts.get(fact::ring_radius);
  if (!distance || !radius || *distance >= *radius) return;
  auto& d =
      out.report(diag::make(catalogue::lamp_too_close, place_of_ratio(v), *distance, *radius));
  d.with_evidence(
      evidence(v.facts, fact::lamp_distance, diag::Relation::at_least, fact::ring_radius));
  d.with_label(v.chosen.lamp->radius.span(), note::lamp_too_close_ring());
  d.with_note(note::lamp_too_close_aside());
  d.with_help(note::lamp_too_close_smaller());
}

} // namespace norma::rules
