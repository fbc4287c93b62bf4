#include "rules/rules.hpp"

namespace norma::rules {

void tooth_in_shadow(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const Mouths mouths{&fact::lit_in_mouths, &fact::lit_hangs_on};
  const bool in_mean = v.facts.has(fact::teeth_in_shadow);
  if (!in_mean && (!in_some_mouths(v.facts, mouths) || !v.facts.has(fact::dark_in_some))) return;
  const auto side = v.facts.get(fact::lamp_side);
  auto& d =
      out.report(diag::make(catalogue::tooth_in_shadow, place_of(v.view->camera, v),
                            in_mean ? v.facts.value(fact::teeth_in_shadow)
                                    : teeth_in_mouths(v.facts, fact::dark_in_some, mouths),
                            v.facts.value(in_mean ? fact::shaded_by : fact::dark_in_some_by)));
  if (v.chosen.lamp != nullptr && v.chosen.lamp->side.span().known())
    d.with_label(v.chosen.lamp->side.span(), note::kits_lamp());
  if (side) d.with_note(note::tooth_in_shadow_lamp_at(v.facts.value(fact::lamp_side)));
  if (note_mouths(v.facts, mouths, in_mean, d)) {
    note_corners(v.facts, d);
  } else {
    d.with_note(note::mean_mouth_corners_assumed());
  }
  const auto other = v.facts.get(fact::in_shadow_other_side);
  if (other && other->empty()) {
    d.with_help(note::tooth_in_shadow_none_there());
  } else if (other) {
    d.with_help(note::tooth_in_shadow_others_there(*other));
  }
}

} // namespace norma::rules
