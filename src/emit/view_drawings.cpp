#include "emit/view_drawings.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "diag/missing.hpp"
#include "diag/questions.hpp"
#include "drawing/face.hpp"
#include "drawing/from_above.hpp"
#include "drawing/viewfinder.hpp"
#include "emit/card_words.hpp"
#include "facts/facts.hpp"
#include "plan/by_hand/by_hand.hpp"

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

/// Where each tooth that lies at an edge comes nearest to it.
std::vector<drawing::AtEdge> edges_of(const plan::ViewPlan& v, const physics::Mouth& mouth) {
  std::vector<drawing::AtEdge> out;
  for (const EdgeRow& row : edge_rows()) {
    const auto teeth = v.facts.get(row.teeth);
    if (!teeth) continue;
    for (const physics::Shown& s : v.shown) {
      const physics::Crown* crown = physics::find_crown(mouth.crowns, s.tooth);
      if (crown == nullptr || std::find(teeth->begin(), teeth->end(), s.tooth) == teeth->end())
        continue;
      std::optional<physics::Point> nearest;
      double farthest_out = 0;
      constexpr int side = 5;
      for (const physics::SurfacePoint& p : physics::surface_grid(*crown, s.surface, side)) {
        const auto at = physics::project(p.at, v.scene->eye.lens);
        if (!at) continue;
        const double towards = row.towards.x * at->right.in(mm)-row.towards.y * at->up.in(mm);
        if (nearest && towards <= farthest_out) continue;
        nearest = p.at;
        farthest_out = towards;
      }
      if (nearest) out.push_back({*nearest, row.towards});
    }
  }
  return out;
}

// From above
// ---------------------------------------------------------------------------------------

using plan::Who;

std::string letter_of(const std::optional<model::Person>& person, const wording::Language& in) {
  if (!person) return {};
  switch (*person) {
  case model::Person::patient: return in.text(card::letter_patient());
  case model::Person::assistant: return in.text(card::letter_assistant());
  case model::Person::operator_: return in.text(card::letter_operator());
  case model::Person::itself: return {};
  }
  return {};
}

drawing::Pulled pulled(const model::Retractor& by, bool right, const wording::Language& in) {
  drawing::Pulled out;
  out.right = right;
  if (by.pull == model::Pull::outwards_and_back) out.back = 1;
  // By eye.
  if (by.tension == model::Tension::firm) out.firmly = 1.3;
  if (by.tension == model::Tension::light) out.firmly = 0.7;
  out.who = letter_of(by.held_by, in);
  return out;
}

std::vector<drawing::Pulled> pulls_of(const plan::ViewPlan& v, const wording::Language& in) {
  std::vector<drawing::Pulled> out;
  const physics::MouthState& held = v.scene->mouth;
  const auto one = [&](bool there, const text::Sourced<model::Retractor>& by, bool right) {
    if (there && by.known() && !by.get().none && !by.get().mirror_takes_place)
      out.push_back(pulled(by.get(), right, in));
  };
  one(held.right.has_value(), v.view->right_retractor, true);
  one(held.left.has_value(), v.view->left_retractor, false);
  return out;
}

drawing::Stands stands_of(const plan::ViewPlan& v) {
  const auto& place = v.view->operator_place;
  if (!place.known()) return drawing::Stands::in_front;
  switch (place.get()) {
  case model::OperatorPlace::in_front: return drawing::Stands::in_front;
  case model::OperatorPlace::behind_head: return drawing::Stands::behind_head;
  case model::OperatorPlace::at_right: return drawing::Stands::at_right;
  case model::OperatorPlace::at_left: return drawing::Stands::at_left;
  }
  return drawing::Stands::in_front;
}

/// Where its lamps stand around the lens, as who looks through it sees them, line by line; none of
/// a ring, or where none was placed.
std::vector<std::string> lamp_at(const plan::ViewPlan& v, const wording::Language& in) {
  const std::vector<physics::Point>& points = v.scene->lamp;
  if (points.empty() || points.size() > 2) return {};
  const physics::Axes axes = physics::camera_of(v.scene->eye).axes;
  std::vector<std::string> out{in.text(card::lamp_at())};
  for (const physics::Point& p : points) {
    const physics::Vec off = physics::direction(v.scene->eye.pupil, p);
    const double right = physics::dot(off, axes.right);
    const double up = physics::dot(off, axes.up);
    constexpr double least = 1; // mm beside the lens
    if (std::hypot(right, up) < least) return {};
    constexpr double half_hour = 15;
    const double clockwise = Angle(std::atan2(-right, -up) * radian).in(degree);
    out.push_back(
        in.text(plan::clock_said(std::round(clockwise / half_hour) * half_hour * degree)));
  }
  return out;
}

drawing::Drawing above_of(const plan::ViewPlan& v, const physics::Mouth& mouth,
                          const physics::Eye& eye, const wording::Language& in) {
  static const std::vector<physics::Point> none;
  drawing::FromAbove out{mouth, eye, v.scene ? v.scene->lamp : none};
  out.stands = stands_of(v);
  if (v.scene) {
    out.upper = v.scene->mouth.of_upper;
    out.pulls = pulls_of(v, in);
    out.lamp_at = lamp_at(v, in);
  }
  if (v.view->head.known()) {
    for (const model::HeadPose pose : v.view->head.get()) {
      if (pose == model::HeadPose::turned_left) out.head_turned = drawing::turned_as_drawn;
      if (pose == model::HeadPose::turned_right) out.head_turned = -drawing::turned_as_drawn;
      if (pose == model::HeadPose::tipped_back) out.tipped = drawing::Tipped::back;
      if (pose == model::HeadPose::tipped_down) out.tipped = drawing::Tipped::down;
    }
  }
  // Both hands of the operator are on the camera (common practice, no source).
  out.camera_held = in.text(card::letter_operator());
  if (v.view->mirror.known()) out.mirror_held = letter_of(v.view->mirror.get().held_by, in);
  // Where an act tells the camera's place by hours.
  out.clock = (v.view->camera.known() && v.view->camera.get().from.has_value()) ||
              v.facts.has(plan::fact::mirror_rise);
  out.of_patient = in.text(card::of_patient());
  out.right = in.text(card::right());
  out.left = in.text(card::left());
  return drawing::from_above(out, above_side);
}

} // namespace

std::span<const EdgeRow> edge_rows() {
  namespace fact = plan::fact;
  namespace phrase = plan::phrase;
  static constexpr EdgeRow rows[] = {{fact::at_left_edge, phrase::left, {-1, 0}},
                                     {fact::at_right_edge, phrase::right, {1, 0}},
                                     {fact::at_top_edge, phrase::top, {0, -1}},
                                     {fact::at_bottom_edge, phrase::bottom, {0, 1}}};
  return rows;
}

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
  marks.edges = edges_of(v, mouth);
  diag::Said words = scene.eye.mirror ? card::finder_in_mirror() : card::finder();
  if (!marks.edges.empty()) words = card::finder_edges(std::move(words));
  return ViewDrawings{drawing::viewfinder(mouth, scene.eye, marks, finder_side),
                      above_of(v, mouth, scene.eye, in), std::move(words)};
}

std::optional<ViewDrawings> card_drawings(const plan::ViewPlan& v, const wording::Language& in) {
  if (v.view->kind != model::ViewKind::face) return view_drawings(v, Numbers::none, in);
  const auto width = v.facts.get(plan::fact::field_width);
  const auto height = v.facts.get(plan::fact::field_height);
  if (!width || !height || !v.view->camera.known()) return std::nullopt;
  const model::CameraPlace& camera = v.view->camera.get();
  drawing::Face face{camera.signed_azimuth(), camera.elevation, width->in(mm), height->in(mm)};
  face.smiling = v.view->lips.known() && v.view->lips.get() == model::Lips::smiling;
  face.on_eye = v.view->focus.known() && v.view->focus.get().thing == model::AimedAt::nearer_eye;
  // The camera by its direction alone: distances from above are not to scale.
  physics::Eye eye;
  eye.lens.axes = physics::camera_axes(face.azimuth, face.elevation, Angle{});
  eye.lens.focus_distance = 1000.0 * mm;
  eye.lens.pupil = eye.lens.axes.forward * (-1.0 * eye.lens.focus_distance);
  eye.pupil = eye.lens.pupil;
  const physics::Mouth shut;
  return ViewDrawings{drawing::face(face, finder_side), above_of(v, shut, eye, in),
                      card::finder_face()};
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
