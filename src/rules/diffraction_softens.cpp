#include "rules/rules.hpp"

#include <cmath>

namespace norma::rules {

void diffraction_softens(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto blur = v.facts.get(fact::diffraction_blur);
  const auto allowed = v.facts.get(fact::allowed_blur);
  if (!blur || !allowed || *blur <= *allowed) return;
  // A difference that cannot be printed is none: blurs are told in whole micrometres.
  if (std::round(blur->in(micrometre)) == std::round(allowed->in(micrometre))) return;
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
