#include "rules/rules.hpp"

namespace norma::rules {

void light_unlike_asked(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const kit::Lamp* lamp = v.chosen.lamp;
  if (lamp == nullptr || !lamp->kind.known() || !v.view->lamp.known()) return;
  if (lamp->kind.get() == kit::LampKind::twin) return; // it models, and from both sides
  const bool around =
      lamp->kind.get() == kit::LampKind::ring || lamp->kind.get() == kit::LampKind::built_in;
  const model::LampLook look = v.view->lamp->look;
  const bool flat = look == model::LampLook::modelling && around;
  const bool one_sided = look == model::LampLook::even && !around;
  if (!flat && !one_sided) return;
  auto& d = out.report(
      diag::make(catalogue::light_unlike_asked, place_of(v.view->lamp, v),
                 flat ? note::light_unlike_asked_modelling() : note::light_unlike_asked_even(),
                 v.facts.value(fact::lamp),
                 flat ? note::light_unlike_asked_around() : note::light_unlike_asked_beside()));
  d.with_label(lamp->kind.span(), note::kits_lamp());
  d.with_help(flat ? note::light_unlike_asked_point() : note::light_unlike_asked_ring());
}

} // namespace norma::rules
