#include "rules/rules.hpp"

namespace norma::rules {

void lamp_in_mirror(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.has(fact::lamp_in_mirror_at)) return;
  auto& d =
      out.report(diag::make(catalogue::lamp_in_mirror, place_of(v.view->mirror, v),
                            v.facts.value(fact::mirror), v.facts.value(fact::lamp_in_mirror_at)));
  d.with_note(note::lamp_in_mirror_square());
  if (const auto without = v.facts.get(fact::mirror_angle_without_lamp)) {
    d.with_help(note::lamp_in_mirror_opened(*without));
  } else {
    d.with_help(note::lamp_in_mirror_aside());
  }
}

} // namespace norma::rules
