#include "rules/rules.hpp"

namespace norma::rules {

void goes_in_twice(const Context& /*c*/, const plan::SeriesPlan& s, Sink& out) {
  const auto again = s.facts.get(fact::goes_in_again);
  const auto at = s.facts.get(fact::again_in_view);
  if (!again || !at) return;
  auto& d = out.report(diag::make(catalogue::goes_in_twice, entry_span(*s.series, at->own),
                                  s.series->name, *again, *at));
  d.with_help(note::goes_in_twice_together());
}

} // namespace norma::rules
