#include "rules/rules.hpp"

namespace norma::rules {

void lamp_on_wrong_side(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->lamp.known()) return;
  const model::LampTowards towards = v.view->lamp->towards;
  const std::string at = v.facts.text(fact::lamp_side);
  const bool wrong = (towards == model::LampTowards::front_teeth && at == "the cheek") ||
                     (towards == model::LampTowards::cheek && at == "the front teeth");
  if (!wrong) return;
  auto& d = out.report(diag::make(catalogue::lamp_on_wrong_side, place_of(v.view->lamp, v),
                                  towards == model::LampTowards::cheek
                                      ? note::lamp_on_wrong_side_cheek()
                                      : note::lamp_on_wrong_side_front_teeth(),
                                  v.facts.value(fact::lamp), v.facts.value(fact::lamp_side)));
  d.with_label(v.chosen.lamp->side.span(), note::lamp_on_wrong_side_fixed());
  d.with_help(v.view->picture.absent() ? note::lamp_on_wrong_side_turn_and_say()
                                       : note::lamp_on_wrong_side_turn());
}

} // namespace norma::rules
