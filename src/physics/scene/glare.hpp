// Whether a retractor's blade lies in the picture and sends the lamp back to the lens.
#pragma once

#include <optional>
#include <span>

#include "physics/defaults.hpp"
#include "physics/pinhole.hpp"
#include "physics/scene/look.hpp"
#include "physics/scene/mouth.hpp"

namespace norma::physics {

/// A hook around the corner of the mouth: in plan half a circle, open backwards, `height` high and
/// bent back by `bend` at both ends. Unless the kit knows them, `defaults::blade_...`.
struct Blade {
  Length radius = defaults::blade_radius.value * mm;
  Length height = defaults::blade_height.value * mm;
  Angle bend = defaults::blade_bend.value * degree;
};

struct Glint {
  Point at;
  Angle incidence; // of the lamp's light on the blade
};

/// The first place of a blade at which the law of reflection leads from a point of the lamp to the
/// lens, inside the frame and with no body in between; nothing where there is none.
/// `camera`: where it really stands. `sensor` as it is held.
std::optional<Glint> blade_glint(const MouthCorner& corner, bool right, const Mouth& mouth,
                                 const Pinhole& camera, Size sensor, std::span<const Point> lamp,
                                 const Blade& blade = {});

/// The place of the eye's mirror at which it shows a point of the lamp itself: the law of
/// reflection leads from there to the lens, within the mirror's outline and the frame, with no body
/// in between. Nothing where there is none, or no mirror.
std::optional<Point> lamp_in_mirror(const Mouth& mouth, const Eye& eye,
                                    std::span<const Point> lamp);

} // namespace norma::physics
