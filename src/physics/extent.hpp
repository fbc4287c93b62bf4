// How far points reach in a picture and along the camera's axis.
#pragma once

#include <optional>
#include <span>

#include "physics/anatomy/crown.hpp"
#include "physics/orientation.hpp"

namespace norma::physics {

/// Reach of points from an aim point: in the picture to each edge, and along the axis towards the
/// camera and away from it (negative where all points lie on the other side).
struct Extent {
  Length left, right, up, down;
  Length towards, away;
};

/// `pupil` is the distance from the entrance pupil to the aim: with it, what lies nearer shows
/// larger (perspective); without, the picture is taken as seen from afar. Empty points: nothing.
std::optional<Extent> extent_of(std::span<const SurfacePoint> points, Point aim, const Axes& axes,
                                std::optional<Length> pupil);

} // namespace norma::physics
