// A mirror between the tongue and the back teeth, leant over and led out over the front teeth.
#pragma once

#include "placing/tongue_planes.hpp"

namespace norma::placing {

struct TongueMirror {
  Pose pose;
  TongueStand stand;
  double seen = 0;   // sum of the shares of what is turned to the lens
  bool all = false;  // of every surface enough is seen
  bool lamp = false; // in the picture
  Angle turn;        // of the camera about its axis, anticlockwise for who holds it
};
/// Where the setting's mirror shows all, or else most, level and near the teeth first: searched in
/// 140 directions, among the nearest three planes of each in which it is clear of all bodies.
/// Nothing where it goes nowhere. The mouth allows it as its lips, cheeks, palate and floor stand.
std::optional<TongueMirror> place_tongue_mirror(const Setting& setting, const Pose& pose);

/// The same, and what is asked where it does not show all.
struct TongueMirrorOrWidth {
  std::optional<TongueMirror> found;
  /// The width nearest to its own, in steps of 2 mm, at which a mirror of its shape would show all:
  /// none wider where not even this one goes in.
  std::optional<Length> width_that_fits;
};
TongueMirrorOrWidth place_tongue_mirror_or_fit(const Setting& setting, const Pose& pose);

} // namespace norma::placing
