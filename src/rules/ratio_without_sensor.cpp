#include "rules/rules.hpp"

namespace norma::rules {

void ratio_without_sensor(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!v.view->ratio.known() || !c.protocol.sensor.absent()) return;
  auto& d = out.report(diag::make(catalogue::ratio_without_sensor, place_of_ratio(v),
                                  v.facts.value(fact::ratio_asked)));
  d.with_note(note::ratio_without_sensor_same_field());
  d.with_help(note::ratio_without_sensor_say());
}

} // namespace norma::rules
