// The lamp that rides on the camera: where it stands, whether a mirror shows it, and what of what
// is seen it lights.
#pragma once

#include "placing/pose.hpp"

namespace norma::placing {

/// The points that light comes from; `other_side`: a lamp beside the lens put across from where it
/// is. Nothing where the setting has no lamp.
std::optional<physics::Lamp> lamp_of(const Setting& setting, const Pose& pose,
                                     bool other_side = false);
/// May what stands before the teeth throw a shadow? A lamp around the lens lights what the lens
/// sees.
bool may_shade(const Setting& setting);
/// Where the mirror shows the lamp itself (physics::lamp_in_mirror), of several heads the first
/// that it shows; nothing where it does not.
std::optional<physics::Point> lamp_in_mirror(const Setting& setting, const Pose& pose);
inline bool shows_lamp(const Setting& setting, const Pose& pose) {
  return lamp_in_mirror(setting, pose).has_value();
}

/// A ninth of the picture as shot: which third of its width and of its height, counted from the
/// middle (-1: left, below).
struct PictureThird {
  int column;
  int row;
};
/// Where a point falls; nothing where it is not in front of the lens.
std::optional<PictureThird> third_of(const Setting& setting, const Pose& pose, physics::Point at);

/// Between the most and the least lit of the surfaces that are not hidden; nothing where none is
/// lit.
std::optional<Stops> light_evenness(const std::vector<Shown>& lit);

} // namespace norma::placing
