#include "rules/rules.hpp"

namespace norma::rules {

void light_unlike_asked(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const kit::Lamp* lamp = v.chosen.lamp;
  if (lamp == nullptr || !lamp->kind.known() || !v.view->lamp.known()) return;
  const bool around =
      lamp->kind.get() == kit::LampKind::ring || lamp->kind.get() == kit::LampKind::built_in;
  const model::LampLook look = v.view->lamp->look;
  const bool flat = look == model::LampLook::modelling && around;
  const bool one_sided = look == model::LampLook::even && !around;
  if (!flat && !one_sided) return;
  auto& d = out.report(diag::make(
      catalogue::light_unlike_asked, place_of(v.view->lamp, v),
      flat ? "modelling light" : "even light", v.facts.value(fact::lamp),
      flat ? "around the lens: its light is even and flat" : "beside the lens: its light models"));
  d.with_label(lamp->kind.span(), "the kit's lamp");
  d.with_help(flat ? "a point light beside the lens models the teeth"
                   : "a ring light is even; so is one built into the lens");
}

} // namespace norma::rules
