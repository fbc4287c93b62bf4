#include "rules/rules.hpp"

namespace norma::rules {

void unwanted_shows(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.has(fact::unwanted_shown)) return;
  out.report(diag::make(catalogue::unwanted_shows, v.view->must_not_show.span(),
                        v.facts.value(fact::unwanted_shown)))
      .with_note(note::mean_mouth_corners_assumed())
      .with_help(note::unwanted_shows_nearer());
}

} // namespace norma::rules
