#include "rules/rules.hpp"

namespace norma::rules {

void goes_in_twice(const Context& /*c*/, const plan::SeriesPlan& s, Sink& out) {
  const auto again = s.facts.get(fact::goes_in_again);
  if (!again) return;
  const std::string at = s.facts.text(fact::again_in_view);
  auto& d = out.report(
      diag::make(catalogue::goes_in_twice, entry_span(*s.series, at), s.series->name, *again, at));
  d.with_help("put the views that share it next to each other");
}

} // namespace norma::rules
