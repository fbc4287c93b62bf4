// Outlines of bodies from spots that lie on them.
#pragma once

#include <vector>

#include "drawing/display.hpp"

namespace norma::drawing {

/// The convex polygon around them, once around; empty where they lie on one line.
std::vector<Spot> hull_of(std::vector<Spot> spots);
/// So many spots at even steps along a closed polygon: a smooth line through them has no kinks.
std::vector<Spot> evenly(const std::vector<Spot>& polygon, int count);
/// Does a circle lie within a convex polygon, whichever way around that goes? Not on its line.
bool holds_circle(const std::vector<Spot>& convex, Spot middle, double radius);

} // namespace norma::drawing
