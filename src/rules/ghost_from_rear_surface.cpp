#include "rules/rules.hpp"

namespace norma::rules {

void ghost_from_rear_surface(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto on_sensor = v.facts.get(fact::ghost_on_sensor);
  const auto allowed = v.facts.get(fact::allowed_blur);
  if (!on_sensor || !allowed || *on_sensor <= *allowed || v.chosen.mirror == nullptr) return;
  auto& d =
      out.report(diag::make(catalogue::ghost_from_rear_surface, place_of(v.view->mirror, v),
                            v.facts.value(fact::ghost), v.facts.value(fact::ghost_on_sensor)));
  d.with_evidence(
      evidence(v.facts, fact::ghost_on_sensor, diag::Relation::at_most, fact::allowed_blur));
  d.with_label(v.chosen.mirror->surface.span(), note::kits_mirror());
  d.with_note(note::ghost_from_rear_surface_strength(v.facts.value(fact::ghost_strength),
                                                     v.facts.value(fact::mirror_incidence)));
  d.with_help(note::ghost_from_rear_surface_front());
}

} // namespace norma::rules
