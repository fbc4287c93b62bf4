// The ways in which a shot can be off what was planned, and how a view stands then.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>

#include "physics/quantity_text.hpp"
#include "placing/pose.hpp"

namespace norma::margins {

/// What can be off. The camera's own frame counts: its right and its top are those of its picture.
enum class Error {
  camera_sideways, // it stands aside, still aimed at the same point
  camera_height,   // the same, above or below
  camera_roll,     // about its axis
  camera_distance, // along its axis, and focused anew: its ratio follows
  aim_across,      // it stands right, and is turned aside
  aim_up,
  focus,        // the plane that is sharp; the ratio stays
  mirror_angle, // its outer end, the inner one stays
  mirror_turn,  // about its length
  mirror_slide, // along its length
  corner_aside, // where the corners of the mouth are held, all that are
  corner_back
};
inline constexpr std::size_t errors = 12;

struct ErrorRow {
  Error what;
  std::string_view id; // for other programs
  physics::Kind kind;  // angle or length: its sizes are in degrees or millimetres
  double most;         // farther is not looked
};
/// One row for each of `Error`, in their order.
std::span<const ErrorRow> error_rows();
const ErrorRow& row_of(Error what);

/// A view as it stands.
struct Standing {
  placing::Setting setting;
  placing::Pose pose;
  /// The plane that is sharp, along the camera's axis behind the aim; nothing where nothing must be
  /// sharp, or where that is not known.
  std::optional<Length> focus;
};
/// As it was planned.
Standing standing(const placing::Setting& setting, placing::Pose pose);

/// Can this be off? There is a mirror, a corner that is held, something that must be sharp.
bool applies(Error what, const Standing& planned);

/// One thing off by `size` (degrees or millimetres, by its row), all else left as it is: a camera
/// stays where it is when its mirror moves, and a mirror when the camera does. More than 0 is
/// towards the right or the top of the picture; clockwise for who holds the camera; farther; a
/// mirror's outer end away from the side that reflects, its turn towards its `across`, its slide
/// inwards; corners held farther aside or back.
Standing disturbed(const Standing& planned, Error what, double size);
/// All of them at once: mirror and corners first, then the camera before the mirror as it stands.
Standing disturbed(const Standing& planned, const std::array<double, errors>& sizes);

/// Which way it is off, as who stands at the chair would say it.
enum class Way {
  right, // of the patient, as the next five
  left,
  forward,
  back,
  up,
  down,
  clockwise,
  anticlockwise,
  nearer,
  farther,
  picture_right,
  picture_left,
  picture_top,
  picture_bottom,
  more,
  less
};
inline constexpr std::size_t ways = 16;
Way way_of(const Standing& planned, Error what, bool more);

} // namespace norma::margins
