#include "rules/rules.hpp"

namespace norma::rules {

void mirror_offset_differs(const Context& c, const plan::ViewPlan& v, diag::Findings& out) {
  const auto apart = v.facts.get(fact::offset_apart);
  const auto limit = v.facts.get(fact::offset_tolerance);
  if (!apart || !limit || abs(*apart) <= *limit) return;
  auto& d = report(out, c, v,
                   diag::make(catalogue::mirror_offset_differs, place_of(v.view->exposure, v),
                              v.facts.text(fact::stated_offset), v.facts.text(fact::offset)));
  d.with_evidence(
      evidence(v.facts, fact::offset_apart, diag::Relation::at_most, fact::offset_tolerance));
  d.with_note(fmt::format("aperture {}, ISO {}, close-up setting {}, lamp distance {}, mirror {}",
                          v.facts.text(fact::offset_aperture), v.facts.text(fact::offset_iso),
                          v.facts.text(fact::offset_bellows), v.facts.text(fact::offset_distance),
                          v.facts.text(fact::offset_mirror)));
  d.with_help("leave the number out: norma works it out for each kit");
}

} // namespace norma::rules
