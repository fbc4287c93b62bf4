#include "rules/rules.hpp"

namespace norma::rules {

void acceptance_missing(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!c.protocol.adopted.known() || !v.view->take_again_if.empty()) return;
  auto& d =
      out.report(diag::make(catalogue::acceptance_missing, c.protocol.heading));
  d.with_note("pictures are judged before the instruments come out");
  d.with_help("for example: `take again if \"a tooth that must show is cut or not sharp\"`");
}

} // namespace norma::rules
