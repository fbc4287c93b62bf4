// A crown as a rounded body, for the eye: the model's sizes and places, and the usual shape of its
// kind. Nothing is measured on it.
#pragma once

#include "physics/anatomy/crown.hpp"

namespace norma::drawing {

enum class Kind { incisor, canine, premolar, molar };
Kind kind_of(physics::Tooth tooth);

/// A point of its outside. `around`: 0 towards the patient's left, a quarter of a turn towards lips
/// or cheek. `up`: 0 at the biting edge, 1 at the neck. `out`: 1 on the outside, less within. A
/// stack of superellipses whose width and depth pass through those of the edge, the greatest and
/// the neck's; exponents and the narrowing towards the tongue are norma's choice, by eye.
physics::Point on_crown(const physics::Crown& crown, Angle around, double up, double out = 1.0);

} // namespace norma::drawing
