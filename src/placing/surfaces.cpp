#include "placing/surfaces.hpp"

namespace norma::placing {

using physics::Point;
using physics::SurfacePoint;

const physics::Anatomy& anatomy_of(const physics::MouthState& mouth) {
  return mouth.anatomy ? *mouth.anatomy : *physics::mean_anatomy(physics::Dentition::adult);
}

const physics::Crown* crown_of(const physics::MouthState& mouth, Tooth tooth) {
  const auto& gone = mouth.missing;
  if (std::find(gone.begin(), gone.end(), tooth) != gone.end()) return nullptr;
  return physics::find_crown(anatomy_of(mouth).arch(tooth.is_upper()), tooth);
}

std::span<const SurfacePoint> points_of(const physics::MouthState& mouth, Wanted surface) {
  const physics::Crown* crown = crown_of(mouth, surface.tooth);
  if (crown == nullptr) return {};
  return anatomy_of(mouth).surface(*crown, surface.surface);
}

Point face_centre(const physics::Crown& crown, Surface surface) {
  return physics::surface_grid(crown, surface, 3)[4].at;
}

Bounds bounds_of(const Setting& setting) {
  std::optional<Bounds> out;
  for (const Wanted& w : setting.wanted) {
    for (const SurfacePoint& p : points_of(setting.mouth, w)) {
      if (!out) out = Bounds{p.at.x, p.at.x, Length{}};
      out->right = std::min(out->right, p.at.x);
      out->left = std::max(out->left, p.at.x);
      out->back = std::max(out->back, p.at.y);
    }
  }
  return out.value_or(Bounds{});
}

std::optional<physics::Extent> extent_of(const physics::MouthState& mouth,
                                         std::span<const Wanted> surfaces, Point aim,
                                         const physics::Axes& axes, std::optional<Length> pupil) {
  std::optional<physics::Extent> out;
  for (const Wanted& w : surfaces) {
    const auto one = physics::extent_of(points_of(mouth, w), aim, axes, pupil);
    if (!one) continue;
    if (!out) out = one;
    out->left = std::max(out->left, one->left);
    out->right = std::max(out->right, one->right);
    out->up = std::max(out->up, one->up);
    out->down = std::max(out->down, one->down);
    out->towards = std::max(out->towards, one->towards);
    out->away = std::max(out->away, one->away);
  }
  return out;
}

std::optional<Point> middle_of(const physics::MouthState& mouth, std::span<const Wanted> surfaces,
                               const physics::Axes& axes) {
  const auto e = extent_of(mouth, surfaces, Point{}, axes, std::nullopt);
  if (!e) return std::nullopt;
  const Length right = (e->right - e->left) / 2.0;
  const Length up = (e->up - e->down) / 2.0;
  const Length away = (e->away - e->towards) / 2.0;
  return axes.right * right + axes.up * up + axes.forward * away;
}

Point middle_of(const physics::Crown& crown) {
  return crown.edge + crown.root * (0.5 * crown.size.height);
}

std::optional<Point> middle_of(const physics::MouthState& mouth, const Centred& centred,
                               const physics::Axes& axes) {
  const physics::Crown* first = crown_of(mouth, centred.run.front().tooth);
  const physics::Crown* last = crown_of(mouth, centred.run.back().tooth);
  if (first == nullptr || last == nullptr) return std::nullopt;
  if (centred.one()) return middle_of(*first);
  return middle_of(mouth, centred.run, axes);
}

} // namespace norma::placing
