#include "rules/rules.hpp"

namespace norma::rules {

void reference_shot_missing(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const kit::Lamp* lamp = v.chosen.lamp;
  if (lamp == nullptr || lamp->reference || !lamp->guide_number.known()) return;
  auto& d = out.report(
      diag::make(catalogue::reference_shot_missing, lamp->span, v.facts.value(fact::lamp)));
  d.with_note("a guide number holds from afar and in a room; close up it is often a stop off");
  d.with_help("photograph a grey card until it comes out right, and write down the settings: "
              "`reference shot`");
}

} // namespace norma::rules
