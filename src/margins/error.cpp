#include "margins/error.hpp"

#include <algorithm>
#include <cmath>

#include "physics/mirror.hpp"
#include "placing/depth.hpp"

namespace norma::margins {
namespace {

using physics::Axes;
using physics::Kind;
using physics::PlaneMirror;
using physics::Point;
using physics::Vec;

constexpr std::array<ErrorRow, errors> rows{
    {{Error::camera_sideways, "camera_sideways", Kind::angle, 30},
     {Error::camera_height, "camera_height", Kind::angle, 30},
     {Error::camera_roll, "camera_roll", Kind::angle, 30},
     {Error::camera_distance, "camera_distance", Kind::length, 60},
     {Error::aim_across, "aim_across", Kind::length, 30},
     {Error::aim_up, "aim_up", Kind::length, 30},
     {Error::focus, "focus", Kind::length, 60},
     {Error::mirror_angle, "mirror_angle", Kind::angle, 20},
     {Error::mirror_turn, "mirror_turn", Kind::angle, 20},
     {Error::mirror_slide, "mirror_slide", Kind::length, 16},
     {Error::corner_aside, "corner_aside", Kind::length, 15},
     {Error::corner_back, "corner_back", Kind::length, 15}}};

/// Two directions square to each other, the first turned towards the second.
void turn(Vec& first, Vec& second, Angle by) {
  const Vec was = first;
  first = was * cos(by) + second * sin(by);
  second = second * cos(by) - was * sin(by);
}

/// The camera about its aim: it moves towards `side`.
void orbit(Standing& s, Vec Axes::*side, Angle by) {
  Axes& axes = s.pose.axes;
  turn(axes.*side, axes.forward, by);
}

/// The camera where it stands: its aim moves towards `side`.
void pan(Standing& s, Vec Axes::*side, Length by) {
  Axes& axes = s.pose.axes;
  placing::Camera& camera = s.setting.camera;
  const Point pupil = camera.aim - axes.forward * camera.pupil_distance;
  turn(axes.forward, axes.*side, std::atan2(by.in(mm), camera.pupil_distance.in(mm)) * radian);
  camera.aim = pupil + axes.forward * camera.pupil_distance;
}

/// The camera farther off and focused anew: f (1/m + 1/P) is the distance of the pupil, f and P
/// stay.
void stand_off(Standing& s, Length by) {
  placing::Camera& camera = s.setting.camera;
  const double p = s.setting.sharp ? s.setting.sharp->pupil_ratio.value() : 1.0;
  const Length focal = camera.pupil_distance / (1.0 / camera.ratio.value() + 1.0 / p);
  constexpr double largest = 10; // nearer than that the lens gives no picture
  camera.pupil_distance = std::max(camera.pupil_distance + by, focal * (1.0 / largest + 1.0 / p));
  camera.ratio = Magnification{1.0 / (camera.pupil_distance / focal - 1.0 / p)};
  for (auto* lamp : {&s.setting.lamp, &s.setting.joined})
    if (*lamp) (*lamp)->distance += by;
}

/// Another mirror; the camera stays, so that its image moves.
void put_mirror(Standing& s, const PlaneMirror& mirror) {
  const PlaneMirror& old = *s.pose.mirror;
  const Point camera_aim = physics::reflected(s.setting.camera.aim, old.middle, old.normal);
  const Axes camera = physics::in_mirror(s.pose.axes, old.normal);
  s.setting.camera.aim = physics::reflected(camera_aim, mirror.middle, mirror.normal);
  s.pose.axes = physics::in_mirror(camera, mirror.normal);
  s.pose.mirror = mirror;
}

PlaneMirror moved(PlaneMirror m, Error what, double size) {
  switch (what) {
  case Error::mirror_angle: {
    // A disc has no inner end.
    const Length to_pivot = m.corner >= 0.5 * m.length ? Length{} : 0.5 * m.length;
    const Point pivot = m.middle - m.along * to_pivot;
    turn(m.normal, m.along, size * degree);
    m.middle = pivot + m.along * to_pivot;
    return m;
  }
  case Error::mirror_turn: turn(m.normal, m.across, size * degree); return m;
  case Error::mirror_slide: m.middle = m.middle - m.along * (size * mm); return m;
  default: return m;
  }
}

void hold_corners(Standing& s, Length aside, Length back) {
  const auto held = [&](std::optional<physics::MouthCorner> corner) {
    // However weak the pull, a corner lies beside the front teeth and behind the lips.
    constexpr Length least = 5.0 * mm;
    if (corner)
      corner = physics::MouthCorner{std::max(corner->side + aside, least),
                                    std::max(corner->back + back, Length{})};
    return corner;
  };
  const physics::MouthState& state = s.pose.mouth.state();
  s.pose = placing::with_corners(s.pose, held(state.right), held(state.left));
  s.setting.mouth.right = s.pose.mouth.state().right;
  s.setting.mouth.left = s.pose.mouth.state().left;
}

void disturb(Standing& s, Error what, double size) {
  switch (what) {
  case Error::camera_sideways: return orbit(s, &Axes::right, size * degree);
  case Error::camera_height: return orbit(s, &Axes::up, size * degree);
  case Error::camera_roll: return turn(s.pose.axes.up, s.pose.axes.right, size * degree);
  case Error::camera_distance: return stand_off(s, size * mm);
  case Error::aim_across: return pan(s, &Axes::right, size * mm);
  case Error::aim_up: return pan(s, &Axes::up, size * mm);
  case Error::focus:
    if (s.focus) *s.focus += size * mm;
    return;
  case Error::mirror_angle:
  case Error::mirror_turn:
  case Error::mirror_slide:
    if (s.pose.mirror) put_mirror(s, moved(*s.pose.mirror, what, size));
    return;
  case Error::corner_aside: return hold_corners(s, size * mm, Length{});
  case Error::corner_back: return hold_corners(s, Length{}, size * mm);
  }
}

/// The patient's direction that lies nearest; at equal parts x comes before y before z.
Way nearest_way(Vec v) {
  constexpr double hair = 1e-9;
  const double x = std::abs(v.x), y = std::abs(v.y), z = std::abs(v.z);
  if (x >= y - hair && x >= z - hair) return v.x < 0 ? Way::right : Way::left;
  if (y >= z - hair) return v.y < 0 ? Way::forward : Way::back;
  return v.z > 0 ? Way::up : Way::down;
}

} // namespace

std::span<const ErrorRow> error_rows() { return rows; }
const ErrorRow& row_of(Error what) { return rows[static_cast<std::size_t>(what)]; }

Standing standing(const placing::Setting& setting, placing::Pose pose) {
  Standing out{setting, std::move(pose), {}};
  if (const auto focus = placing::focus_of(setting, out.pose.axes))
    out.focus = *focus - physics::along(setting.camera.aim, out.pose.axes.forward);
  return out;
}

bool applies(Error what, const Standing& planned) {
  switch (what) {
  case Error::focus: return planned.focus.has_value();
  case Error::mirror_angle:
  case Error::mirror_turn:
  case Error::mirror_slide: return planned.pose.mirror.has_value();
  case Error::corner_aside:
  case Error::corner_back: {
    const physics::MouthState& mouth = planned.pose.mouth.state();
    return mouth.right || mouth.left;
  }
  default: return true;
  }
}

Standing disturbed(const Standing& planned, Error what, double size) {
  Standing out = planned;
  disturb(out, what, size);
  return out;
}

Standing disturbed(const Standing& planned, const std::array<double, errors>& sizes) {
  Standing out = planned;
  const physics::MouthState& mouth = planned.pose.mouth.state();
  if (mouth.right || mouth.left)
    hold_corners(out, sizes[static_cast<std::size_t>(Error::corner_aside)] * mm,
                 sizes[static_cast<std::size_t>(Error::corner_back)] * mm);
  for (const Error what : {Error::mirror_angle, Error::mirror_turn, Error::mirror_slide,
                           Error::camera_sideways, Error::camera_height, Error::camera_roll,
                           Error::camera_distance, Error::aim_across, Error::aim_up, Error::focus})
    disturb(out, what, sizes[static_cast<std::size_t>(what)]);
  return out;
}

Way way_of(const Standing& planned, Error what, bool more) {
  const std::optional<PlaneMirror>& mirror = planned.pose.mirror;
  const auto towards = [&](Vec v) { return nearest_way(more ? v : -v); };
  // Where the camera itself goes, not its image.
  const auto camera_towards = [&](Vec v) {
    return mirror ? physics::reflected(v, mirror->normal) : v;
  };
  switch (what) {
  case Error::camera_sideways: {
    const Vec goes = camera_towards(planned.pose.axes.right);
    // A view from one side is told by how far from the midline it is taken.
    if (!mirror && placing::from_side(planned.pose.azimuth))
      return (goes.y < 0) == more ? Way::forward : Way::back;
    return towards(goes);
  }
  case Error::camera_height: return towards(camera_towards(planned.pose.axes.up));
  case Error::camera_roll: return more ? Way::clockwise : Way::anticlockwise;
  case Error::camera_distance:
  case Error::focus: return more ? Way::farther : Way::nearer;
  case Error::aim_across: return more ? Way::picture_right : Way::picture_left;
  case Error::aim_up: return more ? Way::picture_top : Way::picture_bottom;
  case Error::mirror_angle: {
    const auto use = planned.setting.mirror->use;
    if (use == placing::MirrorUse::over_arch || use == placing::MirrorUse::in_cheek)
      return more ? Way::more : Way::less;
    return towards(-mirror->normal);
  }
  case Error::mirror_turn: return towards(mirror->across);
  case Error::mirror_slide: return towards(-mirror->along);
  case Error::corner_aside:
  case Error::corner_back: break;
  }
  return more ? Way::more : Way::less;
}

} // namespace norma::margins
