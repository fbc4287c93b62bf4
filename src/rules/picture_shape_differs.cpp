#include "rules/rules.hpp"

namespace norma::rules {

void picture_shape_differs(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const auto apart = v.facts.get(fact::shape_apart);
  constexpr double same = 0.03; // as for the ratio: 3:2 on 23.5 x 15.7 mm and on 36 x 24 mm
  if (!apart || apart->value() <= same) return;
  auto& d =
      out.report(diag::make(catalogue::picture_shape_differs, place_of(c.protocol.sensor, v),
                            v.facts.value(fact::shape_here), v.facts.value(fact::shape_asked)));
  if (c.kit->sensor.span().known())
    d.with_label(c.kit->sensor.span(), note::picture_shape_differs_kits_sensor());
  d.with_note(note::picture_shape_differs_cropped());
  d.with_help(note::picture_shape_differs_set());
}

} // namespace norma::rules
