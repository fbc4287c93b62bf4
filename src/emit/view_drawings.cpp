#include "emit/view_drawings.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "diag/missing.hpp"
#include "diag/questions.hpp"
#include "drawing/from_above.hpp"
#include "drawing/viewfinder.hpp"
#include "emit/card_words.hpp"
#include "facts/facts.hpp"

namespace norma::emit {
namespace {

// In the drawings' own millimetres; whoever lays them out scales them.
constexpr double finder_side = 120;
constexpr double above_side = 70;

physics::Point middle_of(const physics::Crown& crown, physics::Surface surface) {
  constexpr int side = 3;
  return physics::surface_grid(crown, surface, side)[side * side / 2].at;
}

/// On the tooth that is focused on; nothing where what is named is no tooth, or none of this mouth.
std::optional<physics::Point> focus_in(const plan::ViewPlan& v, const physics::Mouth& mouth) {
  const auto& focus = v.view->focus;
  if (!focus.known() || focus.get().thing) return std::nullopt;
  const physics::Crown* crown = physics::find_crown(mouth.crowns, focus.get().first);
  if (crown == nullptr) return std::nullopt;
  const auto asked = std::find_if(v.shown.begin(), v.shown.end(),
                                  [&](const physics::Shown& s) { return s.tooth == crown->tooth; });
  return middle_of(*crown, asked == v.shown.end() ? physics::Surface::facial : asked->surface);
}

} // namespace

std::optional<ViewDrawings> view_drawings(const plan::ViewPlan& v, Numbers numbers,
                                          const wording::Language& in) {
  if (!v.scene) return std::nullopt;
  const plan::Scene& scene = *v.scene;
  const physics::Mouth mouth = physics::make_mouth(scene.mouth);
  const auto limit = v.facts.get(plan::fact::turned_limit);
  drawing::Marks marks;
  for (const physics::Shown& s : v.shown) {
    marks.asked.push_back(s.tooth);
    const physics::Crown* crown = physics::find_crown(mouth.crowns, s.tooth);
    if (numbers == Numbers::none || crown == nullptr) continue;
    const bool enough = physics::enough_of(s) && (!limit || s.obliquity <= *limit);
    marks.names.push_back({middle_of(*crown, s.surface), enough
                                                             ? fmt::format("{}", s.tooth.iso())
                                                             : fmt::format("({})", s.tooth.iso())});
  }
  marks.focus = focus_in(v, mouth);
  const auto& place = v.view->operator_place;
  const bool behind = place.known() && place.get() == model::OperatorPlace::behind_head;
  return ViewDrawings{
      drawing::viewfinder(mouth, scene.eye, marks, finder_side),
      drawing::from_above({mouth, scene.eye, scene.lamp, behind, scene.mouth.of_upper,
                           scene.mouth.right.has_value(), scene.mouth.left.has_value(),
                           in.text(card::of_patient()), in.text(card::right()),
                           in.text(card::left())},
                          above_side),
      scene.eye.mirror.has_value()};
}

diag::Said missing_for_scene(const plan::ViewPlan& v) {
  if (v.scene) return {};
  for (const plan::OpenQuestion& q : v.open) {
    if (q.what.row == &diag::question::scene_hidden) return q.missing;
  }
  if (v.view->kind == model::ViewKind::face) return diag::missing::model_of_a_face();
  const auto& shown = v.view->must_show;
  if (shown.absent() || (shown.known() && shown->empty())) return diag::missing::must_show();
  return {};
}

} // namespace norma::emit
