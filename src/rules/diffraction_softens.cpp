#include "rules/rules.hpp"

namespace norma::rules {

void diffraction_softens(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto blur = v.facts.get(fact::diffraction_blur);
  const auto allowed = v.facts.get(fact::allowed_blur);
  if (!blur || !allowed || !clearly_wider(*blur, *allowed)) return;
  auto& d =
      out.report(diag::make(catalogue::diffraction_softens, place_of(v.view->aperture, v),
                            v.facts.value(fact::aperture), v.facts.value(fact::diffraction_blur)));
  d.with_evidence(
      evidence(v.facts, fact::diffraction_blur, diag::Relation::at_most, fact::allowed_blur));
  d.with_note(note::diffraction_softens_effective(v.facts.value(fact::effective_f_number),
                                                  v.facts.value(fact::ratio),
                                                  v.facts.value(fact::allowed_blur)));
  d.with_help(note::diffraction_softens_open());
}

} // namespace norma::rules
