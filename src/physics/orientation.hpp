// Where a picture's right and top lie in the patient, whether it is mirrored, and which flip or
// turn makes it what is wanted.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "physics/geometry.hpp"

namespace norma::physics {

/// A camera's view as three directions in the patient: where it looks, and what lies to the right
/// and at the top of its picture.
struct Axes {
  Vec forward;
  Vec right;
  Vec up;

  /// A mirrored picture shows the patient left-handed: right x up points forward, not back.
  [[nodiscard]] bool mirrored() const { return dot(cross(right, up), forward) > 0; }
};

/// Axes of a camera at azimuth (+ from the patient's right), elevation (+ from above), turned by
/// `roll` about its axis (180 deg: upside down, as from behind the head).
Axes camera_axes(Angle azimuth, Angle elevation, Angle roll);
/// The picture that a mirror with unit normal n gives this camera.
Axes in_mirror(const Axes& camera, Vec normal);
/// Unit normal of an arch mirror opened by `opened` from the biting plane, its back edge behind the
/// last teeth; below the upper arch, above the lower one.
Vec arch_mirror_normal(bool upper, Angle opened);

/// Letters of Patient Orientation: row (picture's right) and column (picture's bottom), each the
/// nearest of L R A P H F. Source: DICOM PS3.3 C.7.6.1.1.1.
struct Orientation {
  char row = 'L';
  char column = 'F';
  friend bool operator==(const Orientation&, const Orientation&) = default;
};
Orientation orientation(const Axes& axes);
/// `L\F`.
std::string to_text(Orientation o);
/// Direction of a letter; nothing for any other sign.
std::optional<Vec> direction_of(char letter);
/// Does the picture fit `wanted`? Each axis has a part along its letter's direction (a side view
/// from 45 degrees points as much left as forward, and its code says forward), and neither does it
/// point the other way.
bool agrees(const Axes& axes, Orientation wanted);

/// What can be done to a flat picture.
enum class Turn {
  none,
  flip_sideways,
  flip_upside_down,
  half_turn,
  quarter_left,
  quarter_right,
  flip_and_quarter_left,
  flip_and_quarter_right
};
inline constexpr std::array all_turns{Turn::none,
                                      Turn::flip_sideways,
                                      Turn::flip_upside_down,
                                      Turn::half_turn,
                                      Turn::quarter_left,
                                      Turn::quarter_right,
                                      Turn::flip_and_quarter_left,
                                      Turn::flip_and_quarter_right};
Axes turned(const Axes& axes, Turn turn);

/// Where something lies in a picture.
enum class PictureEdge { top, bottom, left, right };

/// The turn that leaves the picture unmirrored and, where given, brings `landmark` (a direction in
/// the patient) to `edge`; the first of `all_turns` that does. Where the picture shows the patient
/// upright or nearly, the head's end stays up. Nothing where no turn does.
struct Wish {
  Vec landmark;
  PictureEdge edge;
};
std::optional<Turn> turn_for(const Axes& shot, const std::optional<Wish>& wish);

} // namespace norma::physics
