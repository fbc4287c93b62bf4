#include "rules/rules.hpp"

namespace norma::rules {

void long_in_the_mouth(const Context& /*c*/, const plan::SeriesPlan& s, Sink& out) {
  const auto minutes = s.facts.get(fact::minutes_in_mouth);
  const auto limit = s.facts.get(fact::minutes_limit);
  if (!minutes || !limit || *minutes <= *limit) return;
  auto& d = out.report(diag::make(catalogue::long_in_the_mouth, s.series->span, s.series->name,
                                  s.facts.value(fact::minutes_in_mouth)));
  d.with_evidence(
      evidence(s.facts, fact::minutes_in_mouth, diag::Relation::at_most, fact::minutes_limit));
  d.with_note(note::long_in_the_mouth_limits());
  d.with_help(note::long_in_the_mouth_rest());
}

} // namespace norma::rules
