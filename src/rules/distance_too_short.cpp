#include "rules/rules.hpp"

namespace norma::rules {

void distance_too_short(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto least = v.facts.get(fact::least_distance);
  const auto stands = v.facts.get(fact::working_distance);
  if (!least || !stands || *stands >= *least) return;
  out.report(diag::make(catalogue::distance_too_short, place_of(v.view->least_distance, v),
                        v.facts.value(fact::ratio), v.facts.value(fact::working_distance),
                        v.facts.value(fact::least_distance)))
      .with_evidence(
          evidence(v.facts, fact::working_distance, diag::Relation::at_least, fact::least_distance))
      .with_note(note::distance_too_short_near())
      .with_help(note::distance_too_short_ask());
}

} // namespace norma::rules
