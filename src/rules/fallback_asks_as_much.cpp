#include "rules/rules.hpp"

namespace norma::rules {

void fallback_asks_as_much(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const diag::Value asks = v.facts.value(fact::fallback_against_first);
  if (asks.empty()) return;
  auto& d = out.report(diag::make(catalogue::fallback_asks_as_much, place_of(v.view->or_else_show, v), asks));
  d.with_label(v.view->must_show.span(), "what comes first");
  d.with_help("name fewer teeth in `or else show` than in `must show`, or leave it out");
}

} // namespace norma::rules
