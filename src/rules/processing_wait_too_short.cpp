#include "rules/rules.hpp"

namespace norma::rules {

void processing_wait_too_short(const Context& c, const plan::ViewPlan& v, diag::Findings& out) {
  const auto takes = v.facts.get(fact::processing);
  if (!takes || v.view->wait_after.broken()) return;
  const Time wait = v.facts.get(fact::wait_after).value_or(Time{});
  if (wait >= *takes) return;
  auto& d = report(out, c, v,
                   diag::make(catalogue::processing_wait_too_short, place_of(v.view->wait_after, v),
                              v.facts.text(fact::processing),
                              v.view->wait_after.known() ? v.facts.text(fact::wait_after)
                                                         : std::string("no wait")));
  d.with_label(c.kit->processing.span(), "the kit's camera");
  d.with_help(
      fmt::format("write `after picture wait {}, patient rests`", v.facts.text(fact::processing)));
}

} // namespace norma::rules
