#include "rules/rules.hpp"

namespace norma::rules {

void diffraction_softens(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto blur = v.facts.get(fact::diffraction_blur);
  const auto allowed = v.facts.get(fact::allowed_blur);
  if (!blur || !allowed || *blur <= *allowed) return;
  // A difference that cannot be printed is none.
  if (v.facts.text(fact::diffraction_blur) == v.facts.text(fact::allowed_blur)) return;
  auto& d = out.report(diag::make(catalogue::diffraction_softens, place_of(v.view->aperture, v),
                              v.facts.text(fact::aperture), v.facts.text(fact::diffraction_blur)));
  d.with_evidence(
      evidence(v.facts, fact::diffraction_blur, diag::Relation::at_most, fact::allowed_blur));
  d.with_note(fmt::format("effective {} at {}; allowed are {}",
                          v.facts.text(fact::effective_f_number), v.facts.text(fact::ratio),
                          v.facts.text(fact::allowed_blur)));
  d.with_help("open the aperture as far as the named teeth allow, or allow a larger blur");
}

} // namespace norma::rules
