#include "rules/rules.hpp"

namespace norma::rules {

void tooth_turned_away(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const Mouths mouths{&fact::squarely_in_mouths, &fact::squarely_hangs_on};
  const bool in_mean = v.facts.has(fact::teeth_turned);
  if (!in_mean && (!in_some_mouths(v.facts, mouths) || !v.facts.has(fact::turned_in_some))) return;
  auto& d = out.report(diag::make(catalogue::tooth_turned_away, place_of(v.view->must_show, v),
                                  in_mean ? v.facts.value(fact::teeth_turned)
                                          : teeth_in_mouths(v.facts, fact::turned_in_some, mouths),
                                  v.facts.value(fact::turned_limit)));
  if (in_mean)
    d.with_evidence(
        evidence(v.facts, fact::most_turned, diag::Relation::at_most, fact::turned_limit));
  if (!note_mouths(v.facts, mouths, in_mean, d))
    d.with_note(note::tooth_turned_away_mean_patient());
  d.with_help(note::tooth_turned_away_farther_round());
}

} // namespace norma::rules
