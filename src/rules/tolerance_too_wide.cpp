#include "rules/rules.hpp"

namespace norma::rules {

void tolerance_too_wide(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  if (!v.facts.has(fact::beyond_tolerance)) return;
  const model::View& view = *v.view;
  const bool by_angle = v.facts.has(fact::camera_angle_held);
  auto& d =
      out.report(diag::make(catalogue::tolerance_too_wide,
                            by_angle ? view.tolerance_angle.span() : view.tolerance_distance.span(),
                            v.facts.value(fact::beyond_tolerance)));
  d.with_note(note::mean_mouth_corners_assumed());
  if (by_angle) d.with_help(note::tolerance_too_wide_angle(v.facts.value(fact::camera_angle_held)));
  if (v.facts.has(fact::camera_distance_held))
    d.with_help(note::tolerance_too_wide_distance(v.facts.value(fact::camera_distance_held)));
  d.with_help(note::tolerance_too_wide_margins());
}

} // namespace norma::rules
