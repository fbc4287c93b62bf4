#include "rules/rules.hpp"

namespace norma::rules {

void lamp_turns_with_camera(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const auto at = v.facts.get(fact::lamp_turned);
  if (!at || v.chosen.lamp == nullptr) return;
  auto& d = out.report(diag::make(catalogue::lamp_turns_with_camera, place_of(v.view->camera, v),
                                  v.facts.value(fact::lamp), v.facts.value(fact::lamp_turned)));
  d.with_label(v.chosen.lamp->side.span(), note::lamp_turns_with_camera_level());
  d.with_help(note::lamp_turns_with_camera_look());
}

} // namespace norma::rules
