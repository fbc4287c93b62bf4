#include "rules/rules.hpp"

namespace norma::rules {

void camera_hand_in_mouth(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto needs = v.facts.get(fact::operator_hands_needed);
  const auto has = v.facts.get(fact::operator_hands);
  if (!needs || !has || *needs <= *has) return;
  auto& d = out.report(diag::make(catalogue::camera_hand_in_mouth, v.view->heading,
                                  v.facts.value(fact::held_by_operator)));
  d.with_note(note::camera_hand_in_mouth_touch());
  d.with_help(note::camera_hand_in_mouth_other());
}

} // namespace norma::rules
