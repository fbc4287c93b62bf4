#include "rules/rules.hpp"

namespace norma::rules {

void acceptance_missing(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!c.protocol.adopted.known() || !v.view->take_again_if.empty()) return;
  auto& d = out.report(diag::make(catalogue::acceptance_missing, c.protocol.heading));
  d.with_note(note::acceptance_missing_judged());
  d.with_help(note::acceptance_missing_example());
}

} // namespace norma::rules
