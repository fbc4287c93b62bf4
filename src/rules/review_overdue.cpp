#include "rules/rules.hpp"

namespace norma::rules {

void review_overdue(const Context& c, Sink& out) {
  const auto days = c.plan.facts.get(fact::days_since_review);
  if (!days) return;
  auto& d = out.report(diag::make(catalogue::review_overdue, c.protocol.review_by.span(), *days));
  d.with_help(note::review_overdue_look());
}

} // namespace norma::rules
