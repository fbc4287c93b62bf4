#include "rules/rules.hpp"

namespace norma::rules {

void iso_out_of_reach(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto iso = v.facts.get(fact::iso);
  const auto least = v.facts.get(fact::least_iso);
  const auto greatest = v.facts.get(fact::greatest_iso);
  if (!iso || !v.view->iso.known()) return;
  const bool too_low = least && *iso < *least;
  const bool too_high = greatest && *greatest < *iso;
  if (!too_low && !too_high) return;
  const bool one = least && greatest && *least == *greatest;
  const diag::Said has = one       ? note::iso_out_of_reach_only(*least)
                         : too_low ? note::iso_out_of_reach_begins(*least)
                                   : note::iso_out_of_reach_ends(*greatest);
  auto& d = out.report(diag::make(catalogue::iso_out_of_reach, v.view->iso.span(), *iso, has));
  d.with_help(note::iso_out_of_reach_ask(too_low ? *least : *greatest));
}

} // namespace norma::rules
