#include "placing/layout.hpp"

#include <algorithm>
#include <cmath>

#include "physics/defaults.hpp"
#include "physics/scene/viewfinder.hpp"
#include "placing/surfaces.hpp"

namespace norma::placing {
namespace {

/// The biting edge of a tooth in the picture.
std::optional<physics::SensorPoint> edge_in_picture(const Setting& setting, Tooth tooth,
                                                    const physics::Pinhole& lens) {
  const physics::Crown* crown = crown_of(setting.mouth, tooth);
  if (crown == nullptr) return std::nullopt;
  return physics::project(crown->edge, lens);
}

/// The tooth on the right of the farthest pair.
std::optional<Tooth> farthest_on_both_sides(const std::vector<Wanted>& wanted) {
  std::optional<Tooth> farthest;
  for (const Wanted& w : wanted) {
    const bool both = std::any_of(wanted.begin(), wanted.end(),
                                  [&](const Wanted& o) { return o.tooth == w.tooth.other_side(); });
    if (!both || !w.tooth.is_right()) continue;
    if (!farthest || w.tooth.position() > farthest->position()) farthest = w.tooth;
  }
  return farthest;
}

Area area_of(const physics::PictureOutline& outline) {
  Area twice;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const physics::SensorPoint& a = outline[i];
    const physics::SensorPoint& b = outline[(i + 1) % outline.size()];
    twice += a.right * b.up - b.right * a.up;
  }
  return 0.5 * abs(twice);
}

/// Right to left along a jaw.
int along_jaw(Tooth tooth) { return tooth.is_right() ? -tooth.position() : tooth.position(); }

} // namespace

InPicture in_picture(const Setting& setting, const Pose& pose) {
  const physics::Eye eye = eye_of(setting, pose);
  const Area all = eye.sensor.width * eye.sensor.height;
  InPicture out;
  Area lips, cheeks;
  for (const physics::PicturedBody& b :
       physics::pictured(physics::make_mouth(setting.mouth), eye)) {
    const double seen = b.framed * b.visible;
    switch (b.what) {
    case physics::Pictured::lip: lips += seen * area_of(b.outline); break;
    case physics::Pictured::cheek: cheeks += seen * area_of(b.outline); break;
    case physics::Pictured::crown:
      if (seen >= tooth_seen) out.teeth.push_back(b.tooth);
      break;
    case physics::Pictured::gum:
    case physics::Pictured::mirror: break;
    }
  }
  std::sort(out.teeth.begin(), out.teeth.end());
  out.teeth.erase(std::unique(out.teeth.begin(), out.teeth.end()), out.teeth.end());
  out.lips = Share{lips / all};
  out.cheeks = Share{cheeks / all};
  return out;
}

std::vector<Tooth> neighbours_of(const Setting& setting, const std::vector<Tooth>& teeth) {
  const auto among = [&](Tooth t) {
    return std::find(teeth.begin(), teeth.end(), t) != teeth.end();
  };
  std::vector<Tooth> out;
  for (const bool upper : {true, false}) {
    std::vector<Tooth> jaw;
    for (const physics::Crown& c : physics::make_mouth(setting.mouth).crowns) {
      if (c.tooth.is_upper() == upper) jaw.push_back(c.tooth);
    }
    std::sort(jaw.begin(), jaw.end(), [](Tooth a, Tooth b) { return along_jaw(a) < along_jaw(b); });
    for (std::size_t i = 0; i < jaw.size(); ++i) {
      const bool beside = (i > 0 && among(jaw[i - 1])) || (i + 1 < jaw.size() && among(jaw[i + 1]));
      if (beside && !among(jaw[i])) out.push_back(jaw[i]);
    }
  }
  return out;
}

std::optional<Margins> margins_of(const Setting& setting, const Pose& pose) {
  const physics::Pinhole lens = eye_of(setting, pose).lens;
  const double m = setting.camera.ratio.value();
  const Length half_width = 0.5 * setting.camera.sensor.width;
  const Length half_height = 0.5 * setting.camera.sensor.height;
  Length left = half_width, right = half_width, top = half_height, bottom = half_height;
  for (const Wanted& w : setting.wanted) {
    for (const physics::SurfacePoint& p : points_of(setting.mouth, w)) {
      const auto at = physics::project(p.at, lens);
      if (!at) return std::nullopt;
      left = std::min(left, half_width + at->right);
      right = std::min(right, half_width - at->right);
      top = std::min(top, half_height - at->up);
      bottom = std::min(bottom, half_height + at->up);
    }
  }
  return Margins{left / m, right / m, top / m, bottom / m};
}

std::optional<AtEdges> at_edges(const Setting& setting, const Pose& pose) {
  const physics::Pinhole lens = eye_of(setting, pose).lens;
  const double m = setting.camera.ratio.value();
  const Length half_width = 0.5 * setting.camera.sensor.width;
  const Length half_height = 0.5 * setting.camera.sensor.height;
  /// Of each tooth, how far from left, right, top, bottom.
  std::vector<std::pair<Tooth, std::array<Length, 4>>> away;
  for (const Wanted& w : setting.wanted) {
    std::array<Length, 4> one;
    one.fill(2.0 * (half_width + half_height));
    for (const physics::SurfacePoint& p : points_of(setting.mouth, w)) {
      const auto at = physics::project(p.at, lens);
      if (!at) return std::nullopt;
      const std::array<Length, 4> here{half_width + at->right, half_width - at->right,
                                       half_height - at->up, half_height + at->up};
      for (std::size_t i = 0; i < one.size(); ++i)
        one[i] = std::min(one[i], here[i]);
    }
    away.emplace_back(w.tooth, one);
  }
  std::sort(away.begin(), away.end(),
            [](const auto& a, const auto& b) { return along_jaw(a.first) < along_jaw(b.first); });
  const double share = physics::defaults::at_edge.value;
  const auto nearest = [&](std::size_t edge, Length side) {
    std::vector<Tooth> out;
    Length least = share * side;
    for (const auto& [tooth, at] : away)
      least = std::min(least, at[edge] + physics::defaults::alike_at_edge.value * m * mm);
    for (const auto& [tooth, at] : away) {
      if (at[edge] <= least && at[edge] <= share * side &&
          std::find(out.begin(), out.end(), tooth) == out.end())
        out.push_back(tooth);
    }
    return out;
  };
  return AtEdges{nearest(0, 2.0 * half_width), nearest(1, 2.0 * half_width),
                 nearest(2, 2.0 * half_height), nearest(3, 2.0 * half_height)};
}

std::optional<Lie> lie_of(const Setting& setting, const Pose& pose) {
  const auto farthest = farthest_on_both_sides(setting.wanted);
  if (!farthest || farthest->position() < 2) return std::nullopt;
  const physics::Pinhole lens = eye_of(setting, pose).lens;
  const auto right = edge_in_picture(setting, *farthest, lens);
  const auto left = edge_in_picture(setting, farthest->other_side(), lens);
  const auto middle_right =
      edge_in_picture(setting, *Tooth::from_iso(farthest->is_upper() ? 11 : 41), lens);
  const auto middle_left =
      edge_in_picture(setting, *Tooth::from_iso(farthest->is_upper() ? 21 : 31), lens);
  if (!right || !left || !middle_right || !middle_left) return std::nullopt;
  const Length across = left->right - right->right;
  const Length up = left->up - right->up;
  const double whole = std::hypot(across.in(mm), up.in(mm));
  if (whole <= 0) return std::nullopt;
  Lie lie;
  // Along the line through the pair, whichever way the picture lies: upside down is not askew.
  lie.cant = std::atan2(up.in(mm), std::abs(across.in(mm))) * radian;
  const Length centre = 0.5 * (middle_right->right + middle_left->right);
  const Length height = 0.5 * (middle_right->up + middle_left->up);
  const Length to_right = abs(right->right - centre);
  const Length to_left = abs(left->right - centre);
  lie.asymmetry = Share{(to_right - to_left) / (to_right + to_left)};
  const Length line = 0.5 * (right->up + left->up);
  lie.bow = (height - line) / setting.camera.ratio.value();
  return lie;
}

} // namespace norma::placing
