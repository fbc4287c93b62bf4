#include "rules/rules.hpp"

namespace norma::rules {

void tooth_turned_away(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::teeth_turned)) return;
  auto& d =
      out.report(diag::make(catalogue::tooth_turned_away, place_of(v.view->must_show, v),
                            v.facts.value(fact::teeth_turned), v.facts.value(fact::turned_limit)));
  d.with_evidence(
      evidence(v.facts, fact::most_turned, diag::Relation::at_most, fact::turned_limit));
  d.with_note(note::tooth_turned_away_mean_patient());
  d.with_help(note::tooth_turned_away_farther_round());
}

} // namespace norma::rules
