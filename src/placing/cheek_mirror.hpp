// A mirror between cheek and teeth: upright, its back edge behind the last tooth that must show and
// clear of its face, opened outwards from the midline's direction.
#pragma once

#include "placing/pose.hpp"

namespace norma::placing {

/// Where such a mirror shows most, at the least opening.
struct CheekMirror {
  Pose pose;
  Angle opened;
};
/// Searched in steps of 2.5 degrees, or taken at the angle that the setting's mirror has there, as
/// near to the teeth as those beside them let it. `right`: on
/// the patient's right. `corner`: no farther aside than this. Nothing where it has no place.
std::optional<CheekMirror> search_cheek_mirror(const Setting& setting, const Pose& pose, bool right,
                                               const Sheet& sheet,
                                               std::optional<physics::MouthCorner> corner = {});

/// The same with regard to the corner of the mouth. Where a place within reach of it
/// (Corners::by_mirror) shows all, the mirror stands there.
struct HeldCheekMirror {
  CheekMirror at;
  Length at_corner; // how far from the midline it stands beside the corner of the mouth
  /// The best place within the corner's reach, where this one is beyond it and that one does not
  /// show all; nothing where it has none there, either.
  struct Within {
    Angle opened;
    std::vector<Tooth> seen;
  };
  std::optional<Within> within;
};
std::optional<HeldCheekMirror> place_cheek_mirror(const Setting& setting, const Pose& pose);

/// For a side view taken directly: the first of `sheets` that shows all, squarely, in the cheek in
/// the retractor's place. Nothing where none does, or where more than faces of teeth must show.
struct OtherMirror {
  std::size_t sheet;
  double least; // placing::least_seen
};
std::optional<OtherMirror> cheek_mirror_instead(const Setting& setting, const Pose& pose,
                                                std::span<const Sheet> sheets);

} // namespace norma::placing
