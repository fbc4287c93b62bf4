#include "rules/rules.hpp"

namespace norma::rules {

void reference_shot_stale(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto age = v.facts.get(fact::reference_age);
  const auto limit = v.facts.get(fact::reference_age_limit);
  if (!age || !limit || *age < *limit) return;
  auto& d =
      out.report(diag::make(catalogue::reference_shot_stale, v.chosen.lamp->reference->date.span(),
                            v.facts.value(fact::lamp), *age));
  d.with_evidence(
      evidence(v.facts, fact::reference_age, diag::Relation::at_most, fact::reference_age_limit));
  d.with_help(note::reference_shot_stale_again());
}

} // namespace norma::rules
