#include "physics/scene/glare.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace norma::physics {
namespace {

// The blade in patches: their normals lie no further apart than twice what is let pass.
constexpr int points_around = 37; // over 180 degrees
constexpr int upwards = 13;
constexpr Angle let_pass = 3.0 * degree;

/// Everything but cheeks, whose edge the blade holds.
Boxes bodies(const Mouth& mouth) {
  std::vector<std::size_t> of;
  for (std::size_t i = 0; i < mouth.boxes.size(); ++i) {
    if (mouth.boxes[i].body != Body::cheek) of.push_back(i);
  }
  return {mouth.boxes, of};
}

} // namespace

std::optional<Glint> blade_glint(const MouthCorner& corner, bool right, const Mouth& mouth,
                                 const Pinhole& camera, Size sensor, std::span<const Point> lamp,
                                 const Blade& blade) {
  const Boxes in_the_way = bodies(mouth);
  const Length half_height = 0.5 * blade.height;
  for (int i = 0; i < points_around; ++i) {
    // From inwards (towards the teeth) over forwards to outwards.
    const Angle turn = 180.0 * degree * (static_cast<double>(i) / (points_around - 1));
    const Vec flat{(right ? 1.0 : -1.0) * cos(turn), -sin(turn), 0};
    for (int k = 0; k < upwards; ++k) {
      const double height = 2.0 * k / (upwards - 1) - 1.0;
      const Angle tilt = height * blade.bend;
      const Vec normal{flat.x * cos(tilt), flat.y * cos(tilt), sin(tilt)};
      const Point at = Point{right ? -corner.side : corner.side, corner.back, Length{}} +
                       flat * blade.radius + Vec{0, 0, 1} * (half_height * height);
      const auto on = project(at, camera);
      if (!on || abs(on->right) > 0.5 * sensor.width || abs(on->up) > 0.5 * sensor.height) continue;
      const Vec to_lens = unit(direction(at, camera.pupil));
      if (dot(to_lens, normal) <= 0) continue;
      for (const Point& source : lamp) {
        const Vec to_lamp = unit(direction(at, source));
        const Vec middle = unit(to_lens + to_lamp);
        if (dot(middle, normal) < cos(let_pass)) continue;
        const Point off = at + normal * (0.02 * mm);
        if (in_the_way.first_hit(off, camera.pupil) || in_the_way.first_hit(off, source)) continue;
        return Glint{at, std::acos(std::clamp(dot(to_lamp, middle), -1.0, 1.0)) * radian};
      }
    }
  }
  return std::nullopt;
}

std::optional<Point> lamp_in_mirror(const Mouth& mouth, const Eye& eye,
                                    std::span<const Point> lamp) {
  if (!eye.mirror) return std::nullopt;
  const PlaneMirror& m = *eye.mirror;
  std::optional<Boxes> in_the_way; // packed where a point of the lamp needs it
  Point sum;
  int seen = 0;
  for (const Point& source : lamp) {
    // From the lens's image straight to the lamp: where that crosses the mirror it is seen.
    const Length behind = along(m.middle - eye.lens.pupil, m.normal);
    const Length before = along(source - m.middle, m.normal);
    if (behind <= Length{} || before <= Length{}) continue;
    const double share = behind / (behind + before);
    const Point way = source - eye.lens.pupil;
    const Point at = eye.lens.pupil + Point{share * way.x, share * way.y, share * way.z};
    if (!m.holds(at)) continue;
    const auto on = project(at, eye.lens);
    if (!on || abs(on->right) > 0.5 * eye.sensor.width || abs(on->up) > 0.5 * eye.sensor.height)
      continue;
    const Point off = at + m.normal * (0.02 * mm);
    if (!in_the_way) in_the_way.emplace(mouth.boxes);
    if (in_the_way->first_hit(off, eye.pupil) || in_the_way->first_hit(off, source)) continue;
    sum = sum + at;
    ++seen;
  }
  if (seen == 0) return std::nullopt;
  return Point{sum.x / seen, sum.y / seen, sum.z / seen};
}

} // namespace norma::physics
