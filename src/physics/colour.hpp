// The colour of light.
#pragma once

#include "physics/quantity.hpp"

namespace norma::physics {

/// How far two colours of light lie apart: the difference of 1e6/K, never below 0. Source: the
/// reciprocal colour temperature of the International Lighting Vocabulary, CIE S 017 (from memory).
constexpr ReciprocalTemperature colours_apart(ColourTemperature a, ColourTemperature b) {
  return abs(1.0 / a - 1.0 / b);
}

} // namespace norma::physics
