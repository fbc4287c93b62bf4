// The chair from above, as whoever holds the camera sees it: the patient's head, where the camera
// stands, mirror, lamp and pull.
#pragma once

#include <string>
#include <vector>

#include "drawing/display.hpp"
#include "physics/scene/look.hpp"

namespace norma::drawing {

struct FromAbove {
  const physics::Mouth& mouth;
  const physics::Eye& eye;
  const std::vector<physics::Point>& lamp; // the points that it shines from; none: not placed
  bool behind = false;                     // who holds the camera stands behind the head
  bool upper = true;                       // the jaw that is drawn
  bool pull_right = false;                 // a retractor pulls there
  bool pull_left = false;
  std::string of_patient; // the words for the patient's right and left, in two lines
  std::string right;
  std::string left;
};
/// `side` mm wide and high.
Drawing from_above(const FromAbove& what, double side);

} // namespace norma::drawing
