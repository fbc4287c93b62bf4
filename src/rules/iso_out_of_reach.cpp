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
  const std::string has = one       ? "it has only ISO " + v.facts.text(fact::least_iso)
                          : too_low ? "it begins at ISO " + v.facts.text(fact::least_iso)
                                    : "it ends at ISO " + v.facts.text(fact::greatest_iso);
  auto& d = out.report(diag::make(catalogue::iso_out_of_reach, v.view->iso.span(), v.facts.text(fact::iso), has));
  d.with_help(fmt::format("ask for ISO {}, or use another camera",
                          v.facts.text(too_low ? fact::least_iso : fact::greatest_iso)));
}

} // namespace norma::rules
