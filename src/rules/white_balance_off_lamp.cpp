#include "rules/rules.hpp"

namespace norma::rules {

void white_balance_off_lamp(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto off = v.facts.get(fact::white_balance_off);
  const auto limit = v.facts.get(fact::white_balance_off_limit);
  if (!off || !limit || *off <= *limit) return;
  const auto set = v.facts.get(fact::white_balance_temperature);
  const auto light = v.facts.get(fact::lamp_temperature);
  auto& d = out.report(diag::make(catalogue::white_balance_off_lamp, v.view->white_balance.span(),
                                  *set, *light, v.facts.value(fact::lamp)));
  d.with_evidence(evidence(v.facts, fact::white_balance_off, diag::Relation::at_most,
                           fact::white_balance_off_limit));
  d.with_note(note::white_balance_off_lamp_apart(v.facts.value(fact::white_balance_off),
                                                 v.facts.value(fact::white_balance_off_limit)));
  d.with_note(*set > *light ? note::white_balance_off_lamp_warm()
                            : note::white_balance_off_lamp_cold());
  if (const kit::Lamp* lamp = v.chosen.lamp; lamp != nullptr)
    d.with_label(lamp->colour_temperature.span(), note::kits_lamp());
  d.with_help(note::white_balance_off_lamp_ask(*light));
}

} // namespace norma::rules
