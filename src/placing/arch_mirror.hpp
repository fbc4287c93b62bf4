// A mirror over an arch: its back end behind the last tooth that must show, opened from the biting
// plane, moved aside where teeth of one side must show.
#pragma once

#include <functional>

#include "placing/pose.hpp"

namespace norma::placing {

/// A mirror of this outline in its place.
physics::PlaneMirror arch_mirror(const Setting& setting, Angle opened,
                                 const physics::PlaneMirror& outline);
/// The pose with the setting's mirror, or another of the same use, at the angle that the setting
/// names.
Pose with_arch_mirror(const Setting& setting, const Pose& pose, const Sheet& sheet);

/// The mirror of a pose opened otherwise; the camera stays, or goes with the mirror so that its
/// image stays square to the arch (Camera::stays).
Pose opened_otherwise(const Setting& setting, const Pose& pose, Angle opened);
/// The angle nearest to the one it has, at which the mirror clears the other jaw and the pose is
/// good; steps of 5 degrees from 20 to 70. Nothing where there is none.
std::optional<Angle> nearest_good_angle(const Setting& setting, const Pose& pose,
                                        const std::function<bool(const Pose&)>& good);

} // namespace norma::placing
