// One mouth's question: what is shown, sharp, framed and lit?
#pragma once

#include "placing/layout.hpp"

namespace norma::placing {

/// What comes of a setting.
struct Outcome {
  Pose pose;
  std::vector<Shown> shown;       // and lit, where the lamp may shade
  std::optional<Margins> margins; // nothing where a point is not in front of the lens
  /// The smallest f-number that holds what must be sharp; nothing where none does, or where nothing
  /// is asked for.
  std::optional<FNumber> f_number_needed;
  bool lamp_in_mirror = false;

  bool seen = false;   // of every surface enough, whole in the mirror
  bool turned = false; // one of them is turned away farther than the limit
  bool framed = false; // all of them whole on the sensor
  bool sharp = false;  // at the aperture that is set, or else the narrowest; true where not asked
  bool lit = false;    // none in shadow; true where it is not known where the lamp stands
  bool fits = false;   // a mirror over an arch has room between the jaws, and none is no worse
};
/// Nothing where the mirror has no place. The same for every thread and in every order.
std::optional<Outcome> outcome_of(const Setting& setting);

} // namespace norma::placing
