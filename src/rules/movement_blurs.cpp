#include "rules/rules.hpp"

namespace norma::rules {

void movement_blurs(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto blur = v.facts.get(fact::movement_blur);
  const auto allowed = v.facts.get(fact::allowed_blur);
  if (!blur || !allowed || *blur <= *allowed) return;
  auto& d = out.report(diag::make(catalogue::movement_blurs, place_of(v.view->shutter, v),
                              v.facts.text(fact::light_time), v.facts.text(fact::movement_blur)));
  d.with_evidence(
      evidence(v.facts, fact::movement_blur, diag::Relation::at_most, fact::allowed_blur));
  d.with_note(fmt::format("patient and camera taken to move by {} in a second",
                          v.facts.text(fact::movement)));
  d.with_help("a shorter shutter, or a flash in place of a steady lamp; rest the hands");
}

} // namespace norma::rules
