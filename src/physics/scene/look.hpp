// What a camera sees of each tooth, and what a lamp lights of it: straight ways from points of the
// teeth to lens and lamp, directly or by a plane mirror, each held against every body on its way.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "physics/pinhole.hpp"
#include "physics/scene/mouth.hpp"

namespace norma::physics {

/// A plane mirror in its place. `normal` points to the side that reflects; width narrows from
/// `wide_end` (the end that lies outside of the mouth or that the hand does not hold: where `along`
/// begins) to `narrow_end`.
struct PlaneMirror {
  Point middle;
  Vec normal;
  Vec across;
  Vec along;
  Length width;
  Length narrow_end; // the same as `width` for a rectangle
  Length length;
  Length corner{};    // radius of its four corners, no more than half of its width; a disc: half
  Length thickness{}; // behind the plane that reflects; light does not meet it

  /// Half of its width at `way` along it from its middle; nothing beyond its ends.
  [[nodiscard]] std::optional<Length> half_width(Length way) const;
  /// Does a point of its plane lie within the outline?
  [[nodiscard]] bool holds(Point on_plane) const;
};

/// A camera, and the mirror it looks into.
struct Eye {
  Pinhole lens; // of the picture: in a mirror view the mirror image of the camera
  Point pupil;  // where the entrance pupil really is
  Size sensor;  // as it is held
  std::optional<PlaneMirror> mirror;
};
/// The camera as it really stands; left-handed where the picture is not.
Pinhole camera_of(const Eye& eye);

/// Does the mirror run into one of the bodies, with its front or its back? Tested along lines
/// across it, a millimetre apart.
bool runs_into(const PlaneMirror& mirror, std::span<const Box> bodies);

/// The places light comes from.
struct Lamp {
  std::vector<Point> points;
  /// Of several heads: how strong each point is, against a point of strength 1; their light adds
  /// up. Empty where all points are parts of one lamp, alike.
  std::vector<double> strengths{};
};
/// `count` points on a circle around the camera's axis.
Lamp ring_lamp(Point centre, const Axes& axes, Length radius, int count);

struct Wanted {
  Tooth tooth;
  Surface surface;
  friend bool operator==(const Wanted&, const Wanted&) = default;
};

/// What stands in the way of a point's way to the lens, or of the lamp's to the point.
enum class Hider {
  nothing,
  crown,
  gum,
  lip,
  cheek,
  beside_mirror,
  turned_from_mirror,
  turned_from_lamp // nothing does: the face is turned away there
};

/// What comes out for one surface, as shares of its area.
struct Shown {
  Tooth tooth;
  Surface surface;
  double framed = 0; // falls on the sensor
  double facing = 0; // turned to the lens, hidden or not
  double seen = 0;   // turned to the lens, and nothing stands between
  double beside = 0; // turned to the lens, and the mirror ends before it
  double beyond = 0; // the part of this that lies beyond an end, not beside it
  // Of what is seen: lit by half of the lamp or more; of several heads, by enough of the light
  // that all of them throw there unhindered (`defaults::shadow_filled`).
  double lit = 0;
  Angle obliquity;  // arc cosine of its size against the one it has seen squarely
  bool cut = false; // a part of it falls beside the sensor, however small
  // Mean of cos/d^2 over what is seen and all of the lamp, mm^-2; of several heads the sum, each by
  // its strength.
  double light = 0;
  Hider hider = Hider::nothing;     // what hides most of it
  std::optional<Tooth> hider_tooth; // the one, where it is a crown or gum
  double thrown = 0;                // of what is seen: not lit, because of other bodies
  Hider shade = Hider::nothing;     // what weighs most in what is seen and not lit
  // Judged by whoever looks, who knows how much is enough:
  bool enough_seen = true;
  bool in_mirror = true;
  bool enough_lit = true;
};

/// Enough of the surface is seen, and it is whole in the mirror.
inline bool enough_of(const Shown& s) { return s.enough_seen && s.in_mirror; }

/// Its grid (Anatomy::grid_side), edges and all, where the tooth stands: that of the anatomy, or
/// worked out into `own`.
std::span<const SurfacePoint> grid_of(const Mouth& mouth, const Crown& crown, Surface surface,
                                      std::vector<SurfacePoint>& own);
/// Does a part of a surface, given by its grid, fall beside the sensor?
bool cut_by_frame(std::span<const SurfacePoint> grid, const Eye& eye);

/// What is asked of a lamp.
enum class Light {
  measured,
  whether // no more than what of a surface is lit; not `light`
};

/// `pieces`: of each surface (surface_pieces). Surfaces of teeth that the mouth does not have are
/// left out.
std::vector<Shown> look(const Mouth& mouth, const Eye& eye, const Lamp* lamp,
                        std::span<const Wanted> wanted, int pieces = usual_pieces,
                        Light light = Light::measured);

} // namespace norma::physics
