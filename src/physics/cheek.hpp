// How far back lens and lamp reach along the teeth of one side, past the corner of the mouth.
#pragma once

#include <algorithm>
#include <optional>

#include "physics/geometry.hpp"
#include "physics/quantity.hpp"

namespace norma::physics {

/// The corner of the mouth as a retractor holds it: from the midline, and behind the incisors.
struct MouthCorner {
  Length side;
  Length back;
};
/// Held farther aside and back. However weak the pull, it lies beside the front teeth and behind
/// the lips.
inline MouthCorner held_otherwise(MouthCorner corner, Length aside, Length back) {
  constexpr Length least = 5.0 * mm;
  return {std::max(corner.side + aside, least), std::max(corner.back + back, Length{})};
}

/// Seen in plan, for the patient's right (mirror the figures for the left): the straight line from
/// (x_s, y_s) past the corner at (-side, back) meets the tooth line x = -teeth at
/// y = yr + (xr - X)(yr - ys)/(-xs - xr). That far back the teeth are reached. Nothing where the
/// source does not lie outside of the corner (it looks in from the front: the corner hides
/// nothing).
std::optional<Length> reach(MouthCorner corner, Length teeth, Point source);

} // namespace norma::physics
