#include "rules/rules.hpp"

namespace norma::rules {

void many_insertions(const Context& /*c*/, const plan::SeriesPlan& s, Sink& out) {
  const auto n = s.facts.get(fact::insertions);
  const auto limit = s.facts.get(fact::insertions_limit);
  if (!n || !limit || *n <= *limit) return;
  auto& d = out.report(diag::make(catalogue::many_insertions, s.series->span, s.series->name, *n));
  d.with_evidence(
      evidence(s.facts, fact::insertions, diag::Relation::at_most, fact::insertions_limit));
  d.with_help(note::many_insertions_order());
}

} // namespace norma::rules
