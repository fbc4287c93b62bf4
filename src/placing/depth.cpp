#include "placing/depth.hpp"

#include <algorithm>

#include "physics/optics.hpp"

namespace norma::placing {

using physics::SurfacePoint;

std::vector<FaceDepth> depths_of(const physics::MouthState& mouth, std::span<const Wanted> surfaces,
                                 const physics::Axes& axes, physics::Band band) {
  std::vector<FaceDepth> out;
  out.reserve(surfaces.size());
  for (const Wanted& w : surfaces) {
    const physics::Crown* crown = crown_of(mouth, w.tooth);
    if (crown == nullptr) continue;
    std::optional<DepthReach> facing;
    std::optional<DepthReach> whole;
    const auto add = [](std::optional<DepthReach>& reach, Length depth) {
      if (!reach) reach = DepthReach{depth, depth};
      reach->nearest = std::min(reach->nearest, depth);
      reach->farthest = std::max(reach->farthest, depth);
    };
    const std::vector<SurfacePoint> part =
        band == physics::Band{}
            ? std::vector<SurfacePoint>()
            : physics::surface_grid(*crown, w.surface, physics::Anatomy::grid_side, band);
    for (const SurfacePoint& p :
         part.empty() ? anatomy_of(mouth).surface(*crown, w.surface) : part) {
      const Length depth = physics::along(p.at, axes.forward);
      add(whole, depth);
      // What is turned away from the camera is not in the picture and need not be sharp.
      if (physics::dot(p.normal, axes.forward) < 0) add(facing, depth);
    }
    const DepthReach& reach = facing ? *facing : *whole;
    out.push_back({w.tooth, reach.nearest, reach.farthest,
                   physics::along(face_centre(*crown, w.surface), axes.forward)});
  }
  return out;
}

DepthReach reach_of(std::span<const FaceDepth> depths) {
  DepthReach out{depths.front().nearest, depths.front().farthest};
  for (const FaceDepth& d : depths) {
    out.nearest = std::min(out.nearest, d.nearest);
    out.farthest = std::max(out.farthest, d.farthest);
  }
  return out;
}

Length best_focus(const DepthReach& reach, std::optional<Length> focal_length, Magnification m,
                  PupilRatio p) {
  if (!focal_length) return reach.middle();
  return reach.nearest + physics::balanced_focus(reach.farthest - reach.nearest,
                                                 physics::pupil_distance(*focal_length, m, p));
}

std::optional<Length> depth_of(const physics::MouthState& mouth, const TeethPair& teeth,
                               Surface surface, const physics::Axes& axes) {
  const physics::Crown* first = crown_of(mouth, teeth.first);
  const physics::Crown* second = crown_of(mouth, teeth.second);
  if (first == nullptr || second == nullptr) return std::nullopt;
  return 0.5 * (physics::along(face_centre(*first, surface), axes.forward) +
                physics::along(face_centre(*second, surface), axes.forward));
}

DepthNeeded depth_needed(std::span<const FaceDepth> depths, Length focus) {
  DepthNeeded n;
  for (const FaceDepth& d : depths) {
    n.near = std::max(n.near, focus - d.nearest);
    n.far = std::max(n.far, d.farthest - focus);
  }
  return n;
}

namespace {

std::vector<FaceDepth> sharp_depths(const Setting& setting, const physics::Axes& axes) {
  if (!setting.sharp) return {};
  return depths_of(setting.mouth, setting.sharp->surfaces, axes, setting.sharp->band);
}

std::optional<Length> focus_on(const Setting& setting, const physics::Axes& axes,
                               std::span<const FaceDepth> depths) {
  if (depths.empty()) return std::nullopt;
  const Sharp& sharp = *setting.sharp;
  if (sharp.focus) return depth_of(setting.mouth, *sharp.focus, sharp.focused, axes);
  return best_focus(reach_of(depths), sharp.focal_length, setting.camera.ratio, sharp.pupil_ratio);
}

Holding held_by(const Setting& setting, std::span<const FaceDepth> depths,
                std::optional<Length> focus) {
  if (depths.empty() || !focus) return {};
  const Sharp& sharp = *setting.sharp;
  const DepthNeeded need = depth_needed(depths, *focus);
  return {true, physics::f_number_holding(need.near, need.far, sharp.blur, setting.camera.ratio,
                                          sharp.pupil_ratio, sharp.focal_length)};
}

} // namespace

Holding f_number_for(const Setting& setting, const physics::Axes& axes) {
  const std::vector<FaceDepth> depths = sharp_depths(setting, axes);
  return held_by(setting, depths, focus_on(setting, axes, depths));
}

Holding f_number_at(const Setting& setting, const physics::Axes& axes, Length focus) {
  return held_by(setting, sharp_depths(setting, axes), focus);
}

std::optional<Length> focus_of(const Setting& setting, const physics::Axes& axes) {
  return focus_on(setting, axes, sharp_depths(setting, axes));
}

bool is_held(const Setting& setting, const Holding& holding) {
  return !holding.asked || (holding.needed && *holding.needed <= setting.sharp->set.value_or(
                                                                     setting.sharp->narrowest));
}

bool sharp_from(const Setting& setting, const physics::Axes& axes) {
  const Holding holding = f_number_for(setting, axes);
  return !holding.asked || (holding.needed && *holding.needed <= setting.sharp->narrowest);
}

} // namespace norma::placing
