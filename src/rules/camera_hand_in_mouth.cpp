#include "rules/rules.hpp"

namespace norma::rules {

void camera_hand_in_mouth(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto needs = v.facts.get(fact::operator_hands_needed);
  const auto has = v.facts.get(fact::operator_hands);
  if (!needs || !has || *needs <= *has) return;
  auto& d = out.report(diag::make(catalogue::camera_hand_in_mouth, v.view->heading,
                                  v.facts.value(fact::held_by_operator)));
  d.with_note("hands that touch the mouth do not touch the camera");
  d.with_help("let assistant or patient hold it, or take one that holds itself");
}

} // namespace norma::rules
