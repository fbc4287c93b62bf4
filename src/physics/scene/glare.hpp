// Whether a retractor's blade lies in the picture and sends the lamp back to the lens.
#pragma once

#include <optional>
#include <span>

#include "physics/pinhole.hpp"
#include "physics/scene/mouth.hpp"

namespace norma::physics {

struct Glint {
  Point at;
  Angle incidence; // of the lamp's light on the blade
};

/// The first place of a blade at which the law of reflection leads from a point of the lamp to the
/// lens, inside the frame and with no body in between; nothing where there is none. The blade is a
/// hook around the corner of the mouth: in plan half a circle of `defaults::blade_radius`, open
/// backwards, `defaults::blade_height` high and bent back by `defaults::blade_bend` at both ends.
/// `camera`: where it really stands. `sensor` as it is held.
std::optional<Glint> blade_glint(const MouthCorner& corner, bool right, const Mouth& mouth,
                                 const Pinhole& camera, Size sensor, std::span<const Point> lamp);

} // namespace norma::physics
