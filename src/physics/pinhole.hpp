// Where a point of the subject falls in the picture: perspective from the entrance pupil.
#pragma once

#include <optional>

#include "physics/orientation.hpp"

namespace norma::physics {

/// A place on the sensor as the picture shows it (not upside down), from its middle.
struct SensorPoint {
  Length right;
  Length up;
};

/// A camera that looks at the middle of its field.
struct Pinhole {
  Point pupil;           // entrance pupil
  Axes axes;             // right and up as the picture shows them, also in a mirror
  Magnification ratio;   // in the focus plane
  Length focus_distance; // pupil to focus plane, along the axis
};

/// Offset across the axis times m x / depth, x the pupil's distance from the focus plane. Nothing
/// where the point is not in front of the pupil. Source: central projection; no distortion.
std::optional<SensorPoint> project(Point p, const Pinhole& camera);

} // namespace norma::physics
