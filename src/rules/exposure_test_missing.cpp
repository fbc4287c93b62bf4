#include "rules/rules.hpp"

namespace norma::rules {

void exposure_test_missing(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const kit::Lamp* lamp = v.chosen.lamp;
  if (lamp == nullptr || lamp->reference || !lamp->guide_number.absent()) return;
  auto& d = out.report(
      diag::make(catalogue::exposure_test_missing, lamp->span, v.facts.value(fact::lamp)));
  d.with_note("norma cannot say how bright the pictures come out");
  d.with_help("photograph a grey card until it comes out right, and write down the settings: "
              "`reference shot`");
}

} // namespace norma::rules
