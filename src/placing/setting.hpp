// One view of one mouth as a value: mouth, camera, mirror, lamp, what must be seen and how much of
// it is enough. From it placing/ finds where things stand and what is seen, sharp, framed and lit.
//
// The folder knows no protocol, no kit and no facts, keeps nothing between two calls, and may be
// asked by many threads. Lengths and places are in the frame of physics/geometry.hpp.
#pragma once

#include <optional>
#include <vector>

#include "physics/scene/look.hpp"

namespace norma::placing {

using physics::Surface;
using physics::Tooth;
using physics::Wanted;

/// Two teeth and the middle between them; twice the same where it is one.
struct TeethPair {
  Tooth first;
  Tooth second;
};

/// What the picture is centred on: the middle of one tooth's crown, or of what a run of teeth
/// shows.
struct Centred {
  std::vector<Wanted> run; // of one tooth the surface does not count

  [[nodiscard]] bool one() const { return run.size() == 1; }
};

/// The camera; in a mirror view its image, which the picture is seen from.
struct Camera {
  Angle azimuth; // + from the patient's right
  Angle elevation;
  Angle roll;
  physics::Axes axes; // of the picture as shot; left-handed in a mirror
  physics::Point aim;
  std::optional<Centred> aimed_at; // nothing: the middle of what must show
  Magnification ratio;
  Length pupil_distance; // from the entrance pupil to the aim
  Size sensor;           // as it is held
  /// A mirror that is opened otherwise leaves it where it is; else its image stays where it is.
  bool stays = false;
};

/// What must be sharp, and what the camera has for it.
struct Sharp {
  std::vector<Wanted> surfaces;
  physics::Band band;                // of their height
  std::optional<TeethPair> focus;    // nothing: the middle of the depth
  Surface focused = Surface::facial; // of these teeth
  Length blur;                       // allowed on the sensor
  FNumber narrowest;                 // that may be set
  std::optional<FNumber> set;        // the aperture that is set
  PupilRatio pupil_ratio;
  std::optional<Length> focal_length; // nothing: a long one
};

enum class MirrorUse {
  over_arch,
  in_cheek,     // between cheek and teeth, upright
  round,        // behind the front teeth
  beside_tongue // between tongue and back teeth
};

/// A mirror as it is made.
struct Sheet {
  enum class Shape {
    straight, // rectangle or trapezoid; a round one, too, of which only the width counts
    rounded,  // the same with round corners
    two_ends  // one of them lies outside of the mouth
  };
  Length width;                     // of its wide end; a round one's diameter
  std::optional<Length> narrow_end; // nothing: as wide
  Length length;
  std::optional<Length> corner; // radius of round corners; nothing: `defaults::mirror_corner`
  Length thickness{};           // 0: thin, or not known
  Shape shape = Shape::straight;
  bool small_end_in = false; // the narrow end goes into the mouth, or else the wide one
};

struct UsedMirror {
  MirrorUse use = MirrorUse::over_arch;
  Sheet sheet;
  /// From the biting plane, over an arch always known; in the cheek from the midline's direction,
  /// searched where it is not known.
  std::optional<Angle> opened;
};

/// A lamp that rides on the camera, in a plane square to its axis.
struct CameraLamp {
  /// Twin: two heads, one on `side` and one across from it; their light adds up.
  enum class Kind { built_in, ring, beside, twin };
  /// Which way from the lens it stands, in the picture as shot. Towards front teeth or cheek: in a
  /// view from one side.
  enum class Side { right, left, above, below, front_teeth, cheek };
  Kind kind = Kind::built_in;
  Length distance; // of its plane from the aim
  Length off_axis; // a ring's radius, or how far it, or each head, stands beside the lens
  Side side = Side::right;
  double light = 1; // at the aim, against another lamp that burns with it
};

/// How much is enough.
struct Limits {
  Share seen;        // of a surface's points that are turned to the lens
  Share in_mirror;   // of the same, within the mirror's outline
  Share lit;         // of what is seen of it
  Length mirror_gap; // between a mirror's end and the last tooth
  Angle turned;      // greatest obliquity of a surface
  Angle squarely;    // the same where it is to be seen squarely
};

/// Where a corner of the mouth can be held.
struct Corners {
  physics::MouthCorner firm;                     // by a retractor that is pulled firmly
  std::optional<physics::MouthCorner> by_mirror; // as far as a mirror may; nothing: not known
};

struct Setting {
  physics::MouthState mouth;     // `opened` is the pose of `opening`
  std::optional<Length> opening; // between the incisal edges; nothing: teeth together
  Camera camera;
  std::vector<Wanted> wanted; // what must be seen, each surface once
  std::optional<Sharp> sharp; // nothing: not asked for, or not known with what
  std::optional<UsedMirror> mirror;
  Limits limits;
  Corners corners;
  std::optional<CameraLamp> lamp;   // nothing: none, or not known where
  std::optional<CameraLamp> joined; // burns with it; only where there is one
};

/// A view that looks from less far aside is taken straight ahead.
inline constexpr Angle aside = 20.0 * degree;
/// Is this azimuth from one side? From behind the front teeth (in a round mirror) it is not.
inline bool from_side(Angle azimuth) {
  return abs(azimuth) >= aside && abs(azimuth) <= 180.0 * degree - aside;
}

/// Which way to look level and square at faces that point to `faces`, in a mirror.
struct SquareLook {
  Angle azimuth;
  physics::Axes axes;
};
SquareLook square_to(physics::Vec faces);

/// The same view of another mouth: the camera aimed by the same rule, its image square to the same
/// faces where that is what it does. Nothing where the jaw does not come to this opening, or where
/// a tooth that is aimed at does not stand. `mouth.opened` is set here.
std::optional<Setting> of_mouth(const Setting& setting, physics::MouthState mouth,
                                std::optional<Length> opening);

} // namespace norma::placing
