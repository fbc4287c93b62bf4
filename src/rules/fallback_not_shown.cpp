#include "rules/rules.hpp"

namespace norma::rules {

void fallback_not_shown(const Context& c, const plan::ViewPlan& v, diag::Findings& out) {
  const std::string unseen = v.facts.text(fact::fallback_not_seen);
  if (unseen.empty()) return;
  auto& d =
      report(out, c, v,
             diag::make(catalogue::fallback_not_shown, place_of(v.view->or_else_show, v), unseen));
  d.with_note("worked out for the mean mouth, with nothing changed but what must show");
  d.with_help("name in `or else show` what is seen all the same, or another view: `or else view`");
}

} // namespace norma::rules
