#include "rules/rules.hpp"

namespace norma::rules {

void tooth_in_shadow(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.get(fact::teeth_in_shadow)) return;
  const auto side = v.facts.get(fact::lamp_side);
  auto& d = out.report(diag::make(catalogue::tooth_in_shadow, place_of(v.view->camera, v),
                              v.facts.text(fact::teeth_in_shadow), v.facts.text(fact::shaded_by)));
  if (v.chosen.lamp != nullptr && v.chosen.lamp->side.span().known())
    d.with_label(v.chosen.lamp->side.span(), "the kit's lamp");
  std::string note = "worked out for the mean mouth; where lips and cheeks are held is assumed";
  if (side) note = fmt::format("the lamp is on the side of {}; {}", *side, note);
  d.with_note(note);
  if (v.facts.text(fact::in_shadow_other_side) == "none") {
    d.with_help("with the lamp on the other side none of them lies in the shadow: move it over, or "
                "turn the camera over");
  } else if (v.facts.get(fact::in_shadow_other_side)) {
    d.with_help(fmt::format("with the lamp on the other side the shadow lies on {}; a ring light "
                            "throws less of one",
                            v.facts.text(fact::in_shadow_other_side)));
  }
}

} // namespace norma::rules
