#include "rules/rules.hpp"

namespace norma::rules {

void ratio_without_sensor(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->ratio.known() || !c.protocol.sensor.absent()) return;
  auto& d = out.report(diag::make(catalogue::ratio_without_sensor, place_of(v.view->ratio, v),
                                      v.facts.text(fact::ratio_asked)));
  d.with_note("1:2 on 36 x 24 mm shows what 1:3 shows on 23.5 x 15.7 mm");
  d.with_help("say which one it is meant for: `sensor 36 x 24 mm`");
}

} // namespace norma::rules
