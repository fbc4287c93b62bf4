// How deep what must be sharp lies along the camera's axis, and whether an aperture holds it.
#pragma once

#include "placing/surfaces.hpp"

namespace norma::placing {

/// Depth of a surface along the camera's axis, from the origin: of those of its points that are
/// turned to the camera (from afar), or of all where none is.
struct FaceDepth {
  Tooth tooth;
  Length nearest;
  Length farthest;
  Length centre; // of the middle of the face
};
/// Of those surfaces whose teeth stand, in their order.
std::vector<FaceDepth> depths_of(const physics::MouthState& mouth, std::span<const Wanted> surfaces,
                                 const physics::Axes& axes, physics::Band band = {});

/// The nearest and the farthest of them; there is one at least.
struct DepthReach {
  Length nearest;
  Length farthest;

  [[nodiscard]] Length middle() const { return 0.5 * (nearest + farthest); }
};
DepthReach reach_of(std::span<const FaceDepth> depths);

/// The focus plane with which the least stopping down holds all of it: both ends blurred alike
/// (physics::balanced_focus), a little in front of the middle; the middle where the focal length is
/// not known, as for an endless one.
Length best_focus(const DepthReach& reach, std::optional<Length> focal_length, Magnification m,
                  PupilRatio p);

/// Depth of the middle between the faces of two teeth; nothing where one does not stand.
std::optional<Length> depth_of(const physics::MouthState& mouth, const TeethPair& teeth,
                               Surface surface, const physics::Axes& axes);

/// In front of the focus plane and behind it; 0 or more.
struct DepthNeeded {
  Length near;
  Length far;
};
DepthNeeded depth_needed(std::span<const FaceDepth> depths, Length focus);

/// The smallest f-number that holds what must be sharp of a setting, seen along these axes
/// (physics::f_number_holding).
struct Holding {
  bool asked = false;            // something must be sharp, and it is known where the focus lies
  std::optional<FNumber> needed; // nothing: none holds it
};
Holding f_number_for(const Setting& setting, const physics::Axes& axes);
/// The same where it is focused at this depth along the axes, whatever the setting says.
Holding f_number_at(const Setting& setting, const physics::Axes& axes, Length focus);
/// The depth that it is focused at; nothing where nothing must be sharp, or that is not known.
std::optional<Length> focus_of(const Setting& setting, const physics::Axes& axes);
/// At the aperture that is set, or else the narrowest; true where not asked.
bool is_held(const Setting& setting, const Holding& holding);
/// Would the narrowest aperture hold it? True where it cannot be told.
bool sharp_from(const Setting& setting, const physics::Axes& axes);

} // namespace norma::placing
