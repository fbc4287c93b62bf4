#include "rules/rules.hpp"

namespace norma::rules {

void tooth_turned_away(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::teeth_turned)) return;
  auto& d = out.report(diag::make(catalogue::tooth_turned_away, place_of(v.view->must_show, v),
                              v.facts.text(fact::teeth_turned), v.facts.text(fact::turned_limit)));
  d.with_evidence(
      evidence(v.facts, fact::most_turned, diag::Relation::at_most, fact::turned_limit));
  d.with_note("worked out for the teeth of the mean patient");
  if (v.view->mirror.known() && !v.view->taken_in_mirror)
    d.with_help("the view has a mirror: write `taken in mirror`");
  d.with_help("look at them from farther round, or in a mirror; or name fewer teeth");
}

} // namespace norma::rules
