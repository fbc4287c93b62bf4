#include "rules/rules.hpp"

namespace norma::rules {

void tooth_in_shadow(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::teeth_in_shadow)) return;
  const auto side = v.facts.get(fact::lamp_side);
  auto& d =
      out.report(diag::make(catalogue::tooth_in_shadow, place_of(v.view->camera, v),
                            v.facts.value(fact::teeth_in_shadow), v.facts.value(fact::shaded_by)));
  if (v.chosen.lamp != nullptr && v.chosen.lamp->side.span().known())
    d.with_label(v.chosen.lamp->side.span(), note::kits_lamp());
  d.with_note(side ? note::tooth_in_shadow_lamp_at(*side, note::mean_mouth_corners_assumed())
                   : note::mean_mouth_corners_assumed());
  const auto other = v.facts.get(fact::in_shadow_other_side);
  if (other && other->empty()) {
    d.with_help(note::tooth_in_shadow_none_there());
  } else if (other) {
    d.with_help(note::tooth_in_shadow_others_there(*other));
  }
}

} // namespace norma::rules
