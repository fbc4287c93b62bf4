// How what must show lies in the frame.
#pragma once

#include "placing/pose.hpp"

namespace norma::placing {

/// From what must show to each edge of the picture, in the focus plane; less than 0: cut off.
struct Margins {
  Length left, right, top, bottom;
};
/// Nothing where a point is not in front of the lens.
std::optional<Margins> margins_of(const Setting& setting, const Pose& pose);

/// Of what must show the teeth that lie at each edge of the picture as shot.
struct AtEdges {
  std::vector<Tooth> left, right, top, bottom; // from the patient's right to the left
};
/// The nearest to an edge, where it lies within `at_edge` of the picture, and those that lie
/// `alike_at_edge` farther. Nothing where a point is not in front of the lens.
std::optional<AtEdges> at_edges(const Setting& setting, const Pose& pose);

/// How the farthest pair of teeth that are named on both sides lies, and the incisors between them.
struct Lie {
  Angle cant;      // of the line through the pair, whichever way up the picture lies
  Share asymmetry; // (right - left) / (right + left), by the distance from the middle
  Length bow;      // the incisors' edges above that line, in the focus plane
};
/// Nothing where no pair is named, or a tooth of it or a central incisor does not stand.
std::optional<Lie> lie_of(const Setting& setting, const Pose& pose);

/// What of the mouth lies in the picture and is seen there.
struct InPicture {
  Share lips;               // of the picture's area
  Share cheeks;             // the same
  std::vector<Tooth> teeth; // of which at least `tooth_seen` of its outline is seen
};
/// Less of a tooth's outline is no tooth in the picture: norma's choice.
inline constexpr double tooth_seen = 0.05;
InPicture in_picture(const Setting& setting, const Pose& pose);
/// The teeth that stand next to these in their jaws, and are none of them.
std::vector<Tooth> neighbours_of(const Setting& setting, const std::vector<Tooth>& teeth);

} // namespace norma::placing
