#include "rules/rules.hpp"

namespace norma::rules {

void retakes_without_limit(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (v.view->take_again_if.empty() || !v.view->take_again_at_most.absent()) return;
  auto& d = out.report(
      diag::make(catalogue::retakes_without_limit, place_of(v.view->take_again_if.front(), v)));
  d.with_help(note::retakes_without_limit_example());
}

} // namespace norma::rules
