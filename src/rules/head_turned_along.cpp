#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

// Common practice, no source: the patient turns the side that is photographed to the camera.
void head_turned_along(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const model::View& view = *v.view;
  if (view.kind != model::ViewKind::mouth || view.taken_in_mirror) return;
  if (!view.camera.known() || !view.camera->from || !view.head.known()) return;
  const bool right = *view.camera->from == model::Side::right;
  const model::HeadPose along =
      right ? model::HeadPose::turned_right : model::HeadPose::turned_left;
  const auto& poses = view.head.get();
  if (std::find(poses.begin(), poses.end(), along) == poses.end()) return;
  if (said_for_other_side(c.protocol, view, view.head.span())) return;
  auto& d =
      out.report(diag::make(catalogue::head_turned_along, view.head.span(), name_of_side(right)));
  d.with_label(view.camera.span(), note::said_here());
  d.with_help(note::head_turned_along_turn(name_of_side(!right)));
}

} // namespace norma::rules
