#include "rules/rules.hpp"

namespace norma::rules {
namespace {

void hands_of(const plan::ViewPlan& v, const plan::FactDef<int>& needed,
              const plan::FactDef<int>& have, const diag::Term& who, Sink& out) {
  const auto n = v.facts.get(needed);
  const auto h = v.facts.get(have);
  if (!n || !h || *n <= *h) return;
  auto& d = out.report(diag::make(catalogue::too_many_hands, v.view->heading, who(), *n, *h));
  d.with_evidence(evidence(v.facts, needed, diag::Relation::at_most, have));
  d.with_note(*v.facts.get(fact::held_things));
  d.with_help(note::too_many_hands_somebody_else());
}

} // namespace

void too_many_hands(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  hands_of(v, fact::patient_hands_needed, fact::patient_hands, note::too_many_hands_patient, out);
  hands_of(v, fact::assistant_hands_needed, fact::assistant_hands, note::too_many_hands_assistant,
           out);
}

} // namespace norma::rules
