#include "rules/rules.hpp"

namespace norma::rules {

void smaller_mirror_would_do(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::smaller_mirror)) return;
  auto& d =
      out.report(diag::make(catalogue::smaller_mirror_would_do, place_of(v.view->mirror, v),
                            v.facts.value(fact::mirror), v.facts.value(fact::smaller_mirror)));
  d.with_note(note::smaller_mirror_would_do_straight_rays());
  d.with_help(note::smaller_mirror_would_do_try());
}

} // namespace norma::rules
