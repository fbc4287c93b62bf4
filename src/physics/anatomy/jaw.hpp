// The lower jaw as it opens.
#pragma once

#include <optional>

#include "physics/anatomy/crown.hpp"

namespace norma::physics {

/// What of a lower jaw counts for its opening, in the frame of geometry.hpp with the teeth
/// together.
struct Jaw {
  Point lower_edge;  // edges of the lower incisors in the midline
  Point axis;        // the middle between the condyles
  Length hinge_only; // opening up to which it only turns
  Length slide;      // of the condyles at 46 mm of opening
  Angle path;        // of the condyles, downwards from the biting plane
};
Jaw jaw_of(const AnatomyValues& values = {});

/// How the lower jaw stands against the upper one: turned about the axis through both condyles,
/// then slid with them forwards and down. Both 0 with the teeth together.
struct JawPose {
  Angle rotation;
  Length slide;
  Point axis;
  Angle path;
};

/// The pose for an opening: the straight distance between the incisal edges in the midline. The jaw
/// only turns at first, then the condyles slide in proportion to the opening; the turn is what
/// makes up the opening (by bisection). Nothing where the opening is less than from edge to edge,
/// or more than a turn of 60 degrees gives. Sources and assumed values: defaults.hpp.
std::optional<JawPose> jaw_open(const Jaw& jaw, Length opening);
/// The same for the mean adult's jaw.
std::optional<JawPose> jaw_open(Length opening);

/// A point of the lower jaw, from its place with the teeth together to its place in the pose.
Point in_pose(Point p, const JawPose& pose);
Crown in_pose(Crown crown, const JawPose& pose);
/// The way back: a tooth of the upper jaw, seen from a lower jaw that stands in the pose.
Crown out_of_pose(Crown crown, const JawPose& pose);

} // namespace norma::physics
