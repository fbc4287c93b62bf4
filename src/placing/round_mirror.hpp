// A small round mirror behind the front teeth.
#pragma once

#include "placing/pose.hpp"

namespace norma::placing {

struct RoundMirror {
  Pose pose;
  Length behind; // the teeth
  Angle below;   // the camera looks into it from so far below (above, for the lower jaw)
};
/// The first place that shows most; nothing where it has none. Searched in steps of 2 mm and 10
/// degrees.
std::optional<RoundMirror> search_round_mirror(const Setting& setting, const Pose& pose,
                                               Length diameter);

} // namespace norma::placing
