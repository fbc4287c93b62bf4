#include "rules/rules.hpp"

namespace norma::rules {

void shutter_too_short(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto shutter = v.facts.get(fact::shutter);
  const auto shortest = v.facts.get(fact::shortest_shutter);
  if (!shutter || !shortest || *shutter >= *shortest) return;
  auto& d = out.report(
      diag::make(catalogue::shutter_too_short, place_of(v.view->shutter, v), *shutter, *shortest));
  d.with_evidence(
      evidence(v.facts, fact::shutter, diag::Relation::at_least, fact::shortest_shutter));
  d.with_label(v.chosen.lamp->shortest_shutter.span(), note::kits_lamp());
  d.with_note(note::shutter_too_short_dark());
  d.with_help(note::shutter_too_short_set(*shortest));
}

} // namespace norma::rules
