// The chair from above, as whoever holds the camera sees it: the patient's head on the shoulders,
// where the camera stands, mirror, lamp, pull, and who holds them.
#pragma once

#include <string>
#include <vector>

#include "drawing/display.hpp"
#include "physics/scene/look.hpp"

namespace norma::drawing {

/// Where whoever holds the camera stands: the drawing's lower edge.
enum class Stands { in_front, behind_head, at_right, at_left };
enum class Tipped { no, back, down };

/// What pulls a cheek aside.
struct Pulled {
  bool right = false;  // the patient's
  double outwards = 1; // which way, seen from above
  double back = 0;
  double firmly = 1; // how long the arrow is, against a usual one
  std::string who;   // a letter for who holds it; "" for nobody
};

struct FromAbove {
  const physics::Mouth& mouth;
  const physics::Eye& eye;
  const std::vector<physics::Point>& lamp; // the points that it shines from; none: not placed
  Stands stands = Stands::in_front;
  bool upper = true; // the jaw that is drawn
  /// The nose towards the patient's left; as drawn, for nobody measures it.
  Angle head_turned{};
  Tipped tipped = Tipped::no;
  std::vector<Pulled> pulls{};
  std::string camera_held{}; // letters for who holds them
  std::string mirror_held{};
  bool clock = false;                 // hours around the mouth: the nose at 6, the right ear at 9
  std::vector<std::string> lamp_at{}; // words, line by line
  std::string of_patient{};           // the words for the patient's right and left, in two lines
  std::string right{};
  std::string left{};
};
/// How far a turned head is drawn turned: by eye.
inline constexpr Angle turned_as_drawn = 30.0 * degree;
/// `side` mm wide and high.
Drawing from_above(const FromAbove& what, double side);

} // namespace norma::drawing
