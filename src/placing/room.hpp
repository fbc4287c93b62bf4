// Whether a mirror over an arch has room between the jaws and between the corners of the mouth.
#pragma once

#include "placing/pose.hpp"

namespace norma::placing {

/// Teeth and gum of the jaw that is not shown, with the mouth so far open.
using OtherJaw = std::vector<physics::Box>;
/// Nothing where the jaw does not come to this opening.
std::optional<OtherJaw> other_jaw_at(const Pose& pose, Length opening);
inline bool clears(const physics::PlaneMirror& mirror, const OtherJaw& other_jaw) {
  return !physics::runs_into(mirror, other_jaw);
}

/// Openings in steps of a millimetre, from 70 down.
struct RoomBetweenJaws {
  std::optional<Length> least;  // down to which the mirror passes; nothing: at none
  std::optional<Length> widest; // that this jaw comes to; nothing: it comes to none
};
RoomBetweenJaws room_between_jaws(const Pose& pose);

/// Where the mirror passes between the corners of the mouth, and how far they are apart. One that
/// is moved aside takes as much as one that is so much wider on both sides.
struct RoomAtCorners {
  Length mirror;
  Length between;
};
/// Nothing where no retractors hold both corners.
std::optional<RoomAtCorners> room_at_corners(const Pose& pose);

/// Has a mirror over an arch, as it stands in the pose, room for both? True of other mirrors, and
/// where it is not known how far the jaws are apart.
bool mirror_fits(const Setting& setting, const Pose& pose);

/// A mirror that is opened less needs less room: the first angle, in steps of 5 degrees down to 20,
/// at which it passes the other jaw at the setting's opening. Nothing where it passes at none, or
/// does not show all any more.
std::optional<Angle> flatter_that_fits(const Setting& setting, const Pose& pose);

} // namespace norma::placing
