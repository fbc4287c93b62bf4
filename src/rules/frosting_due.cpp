#include "rules/rules.hpp"

namespace norma::rules {

void frosting_due(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto cycles = v.facts.get(fact::frosting_cycles);
  const auto cycles_limit = v.facts.get(fact::frosting_cycles_limit);
  const auto age = v.facts.get(fact::frosting_age);
  const auto age_limit = v.facts.get(fact::frosting_age_limit);
  const bool worn = cycles && cycles_limit && *cycles >= *cycles_limit;
  const bool old = age && age_limit && *age >= *age_limit;
  if (!worn && !old) return;
  const diag::Said why =
      worn ? note::frosting_due_cycles(*cycles, *cycles_limit) : note::frosting_due_months(*age);
  auto& d = out.report(diag::make(catalogue::frosting_due, place_of(v.view->right_retractor, v),
                                  v.facts.value(fact::frosting_of), why));
  if (worn) {
    d.with_evidence(evidence(v.facts, fact::frosting_cycles, diag::Relation::at_most,
                             fact::frosting_cycles_limit));
  } else {
    d.with_evidence(
        evidence(v.facts, fact::frosting_age, diag::Relation::at_most, fact::frosting_age_limit));
    d.with_note(note::frosting_due_by_calendar());
  }
  d.with_help(note::frosting_due_look());
}

} // namespace norma::rules
