#include "rules/rules.hpp"

namespace norma::rules {

void fallback_asks_as_much(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.has(fact::fallback_against_first)) return;
  auto& d =
      out.report(diag::make(catalogue::fallback_asks_as_much, place_of(v.view->or_else_show, v),
                            v.facts.value(fact::fallback_against_first)));
  d.with_label(v.view->must_show.span(), note::fallback_asks_as_much_first());
  d.with_help(note::fallback_asks_as_much_fewer());
}

} // namespace norma::rules
