// What the camera's picture shows of a mouth, before it is turned for the record.
#pragma once

#include <optional>
#include <span>

#include "drawing/display.hpp"
#include "physics/scene/look.hpp"

namespace norma::drawing {

/// What is marked in the picture.
struct Name {
  physics::Point at;
  std::string text;
};
/// What lies at an edge of the picture.
struct AtEdge {
  physics::Point at;
  Spot towards; // the edge, by its direction: {-1, 0} is the left one
};
struct Marks {
  std::vector<physics::Tooth> asked;   // drawn stronger: they must show
  std::optional<physics::Point> focus; // a ring around it
  std::vector<Name> names{};           // of teeth, written on them
  std::vector<AtEdge> edges{};         // a wedge that points to the edge
};

/// The whole frame, its long side `long_side` mm. Teeth hide each other by the distance of their
/// middles: good enough for the eye. Lips and cheeks before the focus hide what lies behind them.
Drawing viewfinder(const physics::Mouth& mouth, const physics::Eye& eye, const Marks& marks,
                   double long_side);

} // namespace norma::drawing
