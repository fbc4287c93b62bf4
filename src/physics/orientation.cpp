#include "physics/orientation.hpp"

#include <cmath>

namespace norma::physics {
namespace {

/// A part of a direction this large counts as pointing there.
constexpr double counts = 0.1;
/// More than this of the picture's top lies along the patient's axis: the patient is upright in it.
constexpr double upright = 0.5;

char nearest_letter(Vec v) {
  const double x = std::abs(v.x);
  const double y = std::abs(v.y);
  const double z = std::abs(v.z);
  // A hair decides nothing: at equal parts x comes before y before z.
  constexpr double hair = 1e-9;
  if (x >= y - hair && x >= z - hair) return v.x > 0 ? 'L' : 'R';
  if (y >= z - hair) return v.y > 0 ? 'P' : 'A';
  return v.z > 0 ? 'H' : 'F';
}

} // namespace

Axes camera_axes(Angle azimuth, Angle elevation, Angle roll) {
  const double sa = sin(azimuth), ca = cos(azimuth);
  const double se = sin(elevation), ce = cos(elevation);
  const double sr = sin(roll), cr = cos(roll);
  const Vec forward{sa * ce, ca * ce, -se};
  const Vec up{sa * se, ca * se, ce};
  const Vec right = cross(forward, up);
  return {forward, right * cr + up * sr, up * cr - right * sr};
}

Axes in_mirror(const Axes& camera, Vec normal) {
  const auto seen = [&](Vec v) { return v - 2.0 * dot(v, normal) * normal; };
  return {seen(camera.forward), seen(camera.right), seen(camera.up)};
}

Vec arch_mirror_normal(bool upper, Angle opened) {
  return {0.0, upper ? -sin(opened) : sin(opened), cos(opened)};
}

Orientation orientation(const Axes& axes) {
  return {nearest_letter(axes.right), nearest_letter(-axes.up)};
}

std::string to_text(Orientation o) { return std::string{o.row, '\\', o.column}; }

std::optional<Vec> direction_of(char letter) {
  switch (letter) {
  case 'L': return Vec{1, 0, 0};
  case 'R': return Vec{-1, 0, 0};
  case 'P': return Vec{0, 1, 0};
  case 'A': return Vec{0, -1, 0};
  case 'H': return Vec{0, 0, 1};
  case 'F': return Vec{0, 0, -1};
  default: return std::nullopt;
  }
}

bool agrees(const Axes& axes, Orientation wanted) {
  const auto row = direction_of(wanted.row);
  const auto column = direction_of(wanted.column);
  return row && column && dot(axes.right, *row) > counts && dot(-axes.up, *column) > counts;
}

Axes turned(const Axes& axes, Turn turn) {
  Axes out = axes;
  const bool flips = turn == Turn::flip_sideways || turn == Turn::flip_and_quarter_left ||
                     turn == Turn::flip_and_quarter_right;
  if (flips) out.right = -out.right;
  switch (turn) {
  case Turn::flip_upside_down: out.up = -out.up; break;
  case Turn::half_turn:
    out.right = -out.right;
    out.up = -out.up;
    break;
  case Turn::quarter_left:
  case Turn::flip_and_quarter_left: {
    // What lay at the right comes to the top.
    const Vec was_right = out.right;
    out.right = -out.up;
    out.up = was_right;
    break;
  }
  case Turn::quarter_right:
  case Turn::flip_and_quarter_right: {
    const Vec was_up = out.up;
    out.up = -out.right;
    out.right = was_up;
    break;
  }
  case Turn::none:
  case Turn::flip_sideways: break;
  }
  return out;
}

std::optional<Turn> turn_for(const Axes& shot, const std::optional<Wish>& wish) {
  for (const Turn turn : all_turns) {
    const Axes axes = turned(shot, turn);
    if (axes.mirrored()) continue;
    const Vec head{0, 0, 1};
    const double rise = dot(axes.up, head);
    const double aside = std::abs(dot(axes.right, head));
    if (rise < -upright || aside > upright) continue;
    if (wish) {
      const Vec edge = wish->edge == PictureEdge::top      ? axes.up
                       : wish->edge == PictureEdge::bottom ? -axes.up
                       : wish->edge == PictureEdge::right  ? axes.right
                                                           : -axes.right;
      if (dot(edge, wish->landmark) <= counts) continue;
      // It must lie there rather than at one of the two edges beside.
      const double beside = wish->edge == PictureEdge::top || wish->edge == PictureEdge::bottom
                                ? std::abs(dot(axes.right, wish->landmark))
                                : std::abs(dot(axes.up, wish->landmark));
      if (beside > dot(edge, wish->landmark)) continue;
    }
    return turn;
  }
  return std::nullopt;
}

} // namespace norma::physics
