#include "rules/rules.hpp"

namespace norma::rules {

void automatic_flash_in_mirror(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const kit::Lamp* lamp = v.chosen.lamp;
  if (lamp == nullptr || !v.view->taken_in_mirror || !lamp->control.known()) return;
  if (lamp->control.get() != kit::LampControl::automatic) return;
  auto& d = out.report(diag::make(catalogue::automatic_flash_in_mirror, place_of(v.view->mirror, v),
                                  v.facts.value(fact::lamp)));
  d.with_label(lamp->control.span(), note::kits_lamp());
  d.with_note(note::automatic_flash_in_mirror_answer());
  d.with_help(note::automatic_flash_in_mirror_by_hand());
}

} // namespace norma::rules
