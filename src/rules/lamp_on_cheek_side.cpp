#include "rules/rules.hpp"

namespace norma::rules {

void lamp_on_cheek_side(const Context& c, const plan::ViewPlan& v, diag::Findings& out) {
  const auto reach = v.facts.get(fact::light_reach);
  const auto last = v.facts.get(fact::last_tooth_back);
  const auto seen = v.facts.get(fact::view_reach);
  const auto side = v.facts.get(fact::lamp_side);
  // A shadow counts where the lens looks: what the cheek hides from it anyway needs no light.
  if (!reach || !last || !side || *side != "the cheek" || *reach >= *last) return;
  if (seen && *reach >= *seen) return;
  auto& d =
      report(out, c, v,
             diag::make(catalogue::lamp_on_cheek_side, place_of(v.view->camera, v),
                        v.facts.text(fact::light_reach), v.facts.text(fact::last_tooth_back)));
  d.with_evidence(
      evidence(v.facts, fact::light_reach, diag::Relation::at_least, fact::last_tooth_back));
  d.with_note(
      fmt::format("the corner of the mouth is assumed {} from the midline and {} behind the "
                  "incisors; the lens sees back to {}",
                  v.facts.text(fact::corner_side), v.facts.text(fact::corner_back),
                  v.facts.text(fact::view_reach)));
  if (v.facts.get(fact::front_light_reach)) {
    d.with_help(fmt::format("with the lamp on the front teeth's side it lights back to {}: move it "
                            "over, or turn the camera over",
                            v.facts.text(fact::front_light_reach)));
  }
}

} // namespace norma::rules
