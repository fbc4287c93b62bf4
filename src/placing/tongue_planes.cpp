#include "placing/tongue_planes.hpp"

#include <algorithm>
#include <cmath>

#include "placing/surfaces.hpp"

namespace norma::placing {

using physics::Point;
using physics::SurfacePoint;
using physics::Vec;

TongueSight tongue_sight(const Setting& setting, const Pose& pose, Length length) {
  TongueSight sight;
  sight.aim = setting.camera.aim;
  sight.ahead = pose.axes.forward;
  sight.image = sight.aim - sight.ahead * setting.camera.pupil_distance;
  sight.up = setting.mouth.of_upper ? -1.0 : 1.0;
  for (const Wanted& w : setting.wanted) {
    const auto points = points_of(setting.mouth, w);
    sight.points.insert(sight.points.end(), points.begin(), points.end());
    sight.ends.push_back(sight.points.size());
  }
  sight.beyond = setting.limits.mirror_gap;
  sight.length = length;
  return sight;
}

std::size_t lines_of(Length length) { return static_cast<std::size_t>(std::ceil(length.in(mm))); }

std::optional<TongueDirection> TongueDirection::of(const TongueSight& sight,
                                                   const TongueStand& stand,
                                                   std::span<const physics::Box> bodies) {
  const double up = sight.up;
  const Vec looks{sin(stand.azimuth) * cos(stand.above), cos(stand.azimuth) * cos(stand.above),
                  -up * sin(stand.above)};
  constexpr double none = 1e-3;
  const Vec face = sight.ahead - looks; // towards teeth and lens
  if (physics::norm(face) < none) return std::nullopt;
  const Vec normal = physics::unit(face);
  const Vec out{0, -cos(stand.rise), up * sin(stand.rise)};
  const Vec in_plane = out - normal * physics::dot(out, normal);
  if (physics::norm(in_plane) < none || physics::unit(in_plane).y > -none) return std::nullopt;
  return TongueDirection(stand, normal, physics::unit(in_plane), bodies);
}

std::optional<TonguePlane>& TongueDirection::plane(const TongueSight& sight, std::size_t step) {
  if (planes_.size() <= step) planes_.push_back(make_plane(sight, off_at(step)));
  return planes_[step];
}

Crossing TongueDirection::crossing(const TongueSight& sight, const TonguePlane& plane,
                                   Point p) const {
  const Length before = physics::along(p - plane.on, normal);
  const Length behind = physics::along(plane.on - sight.image, normal);
  const double share = before / (before + behind);
  const Point way_to_lens = sight.image - p;
  const Point at = p + Point{share * way_to_lens.x, share * way_to_lens.y, share * way_to_lens.z};
  return {physics::along(at - plane.on, along), physics::along(at - plane.on, across)};
}

void TongueDirection::cross(const TongueSight& sight, TonguePlane& plane) const {
  if (!plane.ends.empty()) return;
  std::size_t i = 0;
  for (const std::size_t end : sight.ends) {
    for (; i < end; ++i) {
      const SurfacePoint& p = sight.points[i];
      if (physics::along(sight.image - p.at, p.normal) > Length{})
        plane.crossings.push_back(crossing(sight, plane, p.at));
    }
    plane.ends.push_back(plane.crossings.size());
  }
}

std::optional<TonguePlane> TongueDirection::make_plane(const TongueSight& sight, Length off) const {
  TonguePlane plane;
  plane.on = sight.aim - sight.ahead * off;
  if (sight.points.empty() || physics::along(plane.on - sight.image, normal) <= Length{})
    return std::nullopt;
  Length deepest;
  for (const SurfacePoint& p : sight.points) {
    if (physics::along(p.at - plane.on, normal) <= Length{}) return std::nullopt; // behind it
    const Crossing c = crossing(sight, plane, p.at);
    const bool first = &p == &sight.points.front();
    deepest = first ? c.way : std::min(deepest, c.way);
    plane.least = first ? c.side : std::min(plane.least, c.side);
    plane.most = first ? c.side : std::max(plane.most, c.side);
  }
  // Its far end a little beyond the deepest of them.
  plane.far_end = deepest - sight.beyond;
  const std::size_t lines = lines_of(sight.length);
  plane.section =
      room_.section(plane.on, plane.far_end, lines + 1, sight.length / static_cast<double>(lines));
  return plane;
}

} // namespace norma::placing
