#include "rules/rules.hpp"

namespace norma::rules {

void movement_blurs(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto blur = v.facts.get(fact::movement_blur);
  const auto allowed = v.facts.get(fact::allowed_blur);
  if (!blur || !allowed || !clearly_wider(*blur, *allowed)) return;
  auto& d =
      out.report(diag::make(catalogue::movement_blurs, place_of(v.view->shutter, v),
                            v.facts.value(fact::light_time), v.facts.value(fact::movement_blur)));
  d.with_evidence(
      evidence(v.facts, fact::movement_blur, diag::Relation::at_most, fact::allowed_blur));
  d.with_note(note::movement_blurs_moves(v.facts.value(fact::movement)));
  d.with_help(note::movement_blurs_shorter());
}

} // namespace norma::rules
