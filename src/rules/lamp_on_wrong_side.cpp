#include "rules/rules.hpp"

namespace norma::rules {

void lamp_on_wrong_side(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto at = v.facts.get(fact::lamp_side);
  if (!at || !plan::lamp_lies_wrong(*v.view, *at)) return;
  auto& d = out.report(diag::make(catalogue::lamp_on_wrong_side, place_of(v.view->lamp, v),
                                  v.view->lamp->towards == model::LampTowards::cheek
                                      ? note::lamp_on_wrong_side_cheek()
                                      : note::lamp_on_wrong_side_front_teeth(),
                                  v.facts.value(fact::lamp), v.facts.value(fact::lamp_side)));
  d.with_label(v.chosen.lamp->side.span(), note::lamp_on_wrong_side_fixed());
  d.with_help(v.view->picture.absent() ? note::lamp_on_wrong_side_turn_and_say()
                                       : note::lamp_on_wrong_side_turn());
}

} // namespace norma::rules
