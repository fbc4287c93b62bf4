#include <algorithm>

#include "rules/rules.hpp"

namespace norma::rules {

// One cause: what is worked out from such a view is not told (rules.cpp).
void wrong_side(const Context& c, const plan::ViewPlan& v, Sink& out) {
  const model::View& view = *v.view;
  if (view.taken_in_mirror || !view.camera.known() || !view.camera->from) return;
  if (!view.must_show.known() || view.must_show->empty()) return;
  const model::Faces& shown = view.must_show.get();
  const bool camera = *view.camera->from == model::Side::right;
  const auto here = [&](physics::Tooth t) { return t.is_right() == camera; };
  const bool beyond = std::none_of(shown.begin(), shown.end(), [&](const model::NamedFace& f) {
    return here(f.tooth) || f.face != model::Face::facial;
  });
  // Front teeth of the other side are seen from this one.
  const bool far = std::any_of(shown.begin(), shown.end(),
                               [](const model::NamedFace& f) { return f.tooth.position() > 3; });
  const bool aims =
      view.centre.known() && !view.centre->thing && view.centre->first == view.centre->second;
  const bool all_here = std::all_of(shown.begin(), shown.end(),
                                    [&](const model::NamedFace& f) { return here(f.tooth); });
  const auto tell = [&](text::Span place, text::Span other, diag::Said what) {
    out.cause(catalogue::wrong_side);
    if (said_for_other_side(c.protocol, view, view.camera.span()) &&
        said_for_other_side(c.protocol, view, place))
      return;
    auto& d = out.report(diag::make(catalogue::wrong_side, place, name_of_side(camera),
                                    std::move(what), name_of_side(!camera)));
    d.with_label(other, note::said_here());
  };
  if (beyond && far) {
    std::vector<physics::Tooth> teeth;
    for (const model::NamedFace& f : shown)
      teeth.push_back(f.tooth);
    tell(view.camera.span(), view.must_show.span(), note::wrong_side_shown(teeth));
  } else if (aims && all_here && !here(view.centre->first) && view.centre->first.position() > 2) {
    tell(view.centre.span(), view.camera.span(), note::wrong_side_centre(view.centre->first.iso()));
  }
}

} // namespace norma::rules
