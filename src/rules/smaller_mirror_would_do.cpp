#include "rules/rules.hpp"

namespace norma::rules {

void smaller_mirror_would_do(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::smaller_mirror)) return;
  auto& d = out.report(diag::make(catalogue::smaller_mirror_would_do, place_of(v.view->mirror, v),
                                  v.facts.text(fact::mirror), v.facts.value(fact::smaller_mirror)));
  d.with_note(
      "worked out for the mean mouth; norma chooses by straight rays, which ask for a little "
      "more");
  d.with_help("a wide mirror makes some patients gag: try the narrower one first");
}

} // namespace norma::rules
