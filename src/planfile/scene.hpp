// What stands where, and what of it the picture shows.
#pragma once

#include "planfile/values.hpp"

namespace norma::planfile {

enum class SurfaceId { facial, biting, lingual };
template <> struct Ids<SurfaceId> {
  static constexpr std::string_view type_name = "surface";
  static constexpr std::string_view type_about =
      "biting: occlusal or incisal, whichever the tooth has";
  static constexpr std::string_view all[] = {"facial", "biting", "lingual"};
};
enum class HiderId { nothing, crown, gum, lip, cheek, beside_mirror, turned_from_mirror };
template <> struct Ids<HiderId> {
  static constexpr std::string_view type_name = "hider";
  static constexpr std::string_view type_about = "what stands before most of it";
  static constexpr std::string_view all[] = {
      "nothing", "crown", "gum", "lip", "cheek", "beside_mirror", "turned_from_mirror"};
};
/// What is seen of a surface that must show.
struct Shown {
  Tooth tooth;
  SurfaceId surface = SurfaceId::facial;
  Part framed;
  Part facing;
  Part seen;
  Part beside;
  double turned = 0;
  HiderId hider = HiderId::nothing;
  Maybe<Tooth> hider_tooth;
  bool enough_seen = true;
  bool in_mirror = true;
  static constexpr std::string_view type_name = "shown";
  static constexpr std::string_view type_about =
      "what the lens sees of a surface that must show, as shares of a grid of its points";
  template <class A, class S> static void fields(A& a, S& s) {
    a("tooth", s.tooth, "");
    a("surface", s.surface, "");
    a("framed", s.framed, "falls on the sensor");
    a("facing", s.facing, "turned to the lens, hidden or not");
    a("seen", s.seen, "turned to the lens, with nothing between");
    a("beside", s.beside, "turned to the lens, and the mirror ends before it");
    a("turned", s.turned, "from the lens, degrees");
    a("hider", s.hider, "");
    a("hider_tooth", s.hider_tooth, "whose crown or gum it is");
    a("enough_seen", s.enough_seen, "");
    a("in_mirror", s.in_mirror, "the mirror shows it whole");
  }
  friend bool operator==(const Shown&, const Shown&) = default;
};

enum class BodyId { crown, gum, lip, cheek, mirror };
template <> struct Ids<BodyId> {
  static constexpr std::string_view type_name = "body";
  static constexpr std::string_view type_about = "";
  static constexpr std::string_view all[] = {"crown", "gum", "lip", "cheek", "mirror"};
};
struct PicturedSurface {
  SurfaceId surface = SurfaceId::facial;
  Outline outline;
  static constexpr std::string_view type_name = "pictured_surface";
  static constexpr std::string_view type_about = "a side of a crown that is turned to the lens";
  template <class A, class S> static void fields(A& a, S& s) {
    a("surface", s.surface, "");
    a("outline", s.outline, "in the picture, mm");
  }
  friend bool operator==(const PicturedSurface&, const PicturedSurface&) = default;
};
struct PicturedBody {
  BodyId body = BodyId::crown;
  Maybe<Tooth> tooth;
  bool in_mirror = false;
  Outline outline;
  std::vector<PicturedSurface> surfaces;
  double nearest = 0;
  double farthest = 0;
  Part framed;
  Part visible;
  static constexpr std::string_view type_name = "pictured_body";
  static constexpr std::string_view type_about = "one body as the lens projects it";
  template <class A, class S> static void fields(A& a, S& s) {
    a("body", s.body, "");
    a("tooth", s.tooth, "of a crown or a piece of gum");
    a("in_mirror", s.in_mirror, "seen by the mirror: it is cut off at the mirror's outline");
    a("outline", s.outline, "in the picture, mm; closed");
    a("surfaces", s.surfaces, "of a crown");
    a("nearest", s.nearest, "along the axis from the entrance pupil, mm");
    a("farthest", s.farthest, "along the axis from the entrance pupil, mm");
    a("framed", s.framed, "share of its outline's area in the frame");
    a("visible", s.visible, "of what lies in the frame, the share that nothing nearer hides");
  }
  friend bool operator==(const PicturedBody&, const PicturedBody&) = default;
};
/// The picture as shot.
struct Viewfinder {
  Extent frame;
  std::vector<PicturedBody> bodies;
  static constexpr std::string_view type_name = "viewfinder";
  static constexpr std::string_view type_about = "the picture as shot, before it is turned. A body "
                                                 "without a part in the frame is left out, and one "
                                                 "that is no crown and hidden whole";
  template <class A, class S> static void fields(A& a, S& s) {
    a("frame", s.frame, "the sensor as it is held, around the middle of the picture");
    a("bodies", s.bodies,
      "each behind those that come after it: drawn in this order, they hide "
      "each other as they do in the picture");
  }
  friend bool operator==(const Viewfinder&, const Viewfinder&) = default;
};

struct Camera {
  Solid pupil;
  Solid forward;
  Solid right;
  Solid up;
  double focus_distance = 0;
  double ratio = 0;
  static constexpr std::string_view type_name = "camera";
  static constexpr std::string_view type_about = "a camera in its place";
  template <class A, class S> static void fields(A& a, S& s) {
    a("pupil", s.pupil, "entrance pupil, mm");
    a("forward", s.forward, "where it looks, length 1");
    a("right", s.right, "what lies to the right in its picture");
    a("up", s.up, "what lies at the top of its picture");
    a("focus_distance", s.focus_distance, "entrance pupil to the plane of focus, mm");
    a("ratio", s.ratio, "there: size on the sensor over size of the subject");
  }
  friend bool operator==(const Camera&, const Camera&) = default;
};
struct MirrorPose {
  Solid middle;
  Solid normal;
  Solid across;
  Solid along;
  double width = 0;
  double narrow_end = 0;
  double length = 0;
  double corner = 0;
  std::vector<Solid> outline;
  static constexpr std::string_view type_name = "mirror_pose";
  static constexpr std::string_view type_about = "a mirror in its place";
  template <class A, class S> static void fields(A& a, S& s) {
    a("middle", s.middle, "mm");
    a("normal", s.normal, "to the side that reflects, length 1");
    a("across", s.across, "along its width");
    a("along", s.along, "from the end that is `width` wide to the other");
    a("width", s.width, "mm");
    a("narrow_end", s.narrow_end, "mm; the same as the width for a rectangle");
    a("length", s.length, "mm");
    a("corner", s.corner, "radius of its corners, mm");
    a("outline", s.outline, "once around, mm");
  }
  friend bool operator==(const MirrorPose&, const MirrorPose&) = default;
};
struct CrownPose {
  Tooth tooth;
  Solid edge;
  Solid along;
  Solid facial;
  Solid root;
  double width = 0;
  double height = 0;
  double depth = 0;
  static constexpr std::string_view type_name = "crown_pose";
  static constexpr std::string_view type_about = "a crown in its place";
  template <class A, class S> static void fields(A& a, S& s) {
    a("tooth", s.tooth, "");
    a("edge", s.edge, "middle of the biting edge or table, mm");
    a("along", s.along, "along the arch, to the patient's left, length 1");
    a("facial", s.facial, "towards lips or cheek");
    a("root", s.root, "towards the root");
    a("width", s.width, "along the arch at its greatest, mm");
    a("height", s.height, "mm");
    a("depth", s.depth, "across the arch at its greatest, mm");
  }
  friend bool operator==(const CrownPose&, const CrownPose&) = default;
};
struct BoxPose {
  BodyId body = BodyId::gum;
  Maybe<Tooth> tooth;
  Solid middle;
  Solid along;
  Solid out;
  Solid up;
  Solid half;
  static constexpr std::string_view type_name = "box_pose";
  static constexpr std::string_view type_about = "gum, a lip or a cheek as a box";
  template <class A, class S> static void fields(A& a, S& s) {
    a("body", s.body, "");
    a("tooth", s.tooth, "of a piece of gum");
    a("middle", s.middle, "mm");
    a("along", s.along, "first axis, length 1");
    a("out", s.out, "second axis");
    a("up", s.up, "third axis");
    a("half", s.half, "half its size along each axis, mm");
  }
  friend bool operator==(const BoxPose&, const BoxPose&) = default;
};
struct CornerPose {
  double side = 0;
  double back = 0;
  static constexpr std::string_view type_name = "corner_pose";
  static constexpr std::string_view type_about = "a corner of the mouth as a retractor holds it";
  template <class A, class S> static void fields(A& a, S& s) {
    a("side", s.side, "from the midline, mm");
    a("back", s.back, "behind the incisors, mm");
  }
  friend bool operator==(const CornerPose&, const CornerPose&) = default;
};
enum class JawId { upper, lower };
template <> struct Ids<JawId> {
  static constexpr std::string_view type_name = "jaw";
  static constexpr std::string_view type_about = "";
  static constexpr std::string_view all[] = {"upper", "lower"};
};
/// All that stands somewhere, in the patient's axes.
struct Scene {
  Camera camera;
  Maybe<Camera> seen_from;
  Maybe<MirrorPose> mirror;
  std::vector<Solid> lamp;
  JawId jaw = JawId::upper;
  bool teeth_apart = false;
  Maybe<CornerPose> right_corner;
  Maybe<CornerPose> left_corner;
  std::vector<CrownPose> crowns;
  std::vector<BoxPose> bodies;
  static constexpr std::string_view type_name = "scene";
  static constexpr std::string_view type_about = "where camera, mirror, lamp and mouth stand; x to "
                                                 "the patient's left, y backwards, z up, from "
                                                 "the contact of the upper central incisors";
  template <class A, class S> static void fields(A& a, S& s) {
    a("camera", s.camera, "as it is held");
    a("seen_from", s.seen_from, "its image in the mirror, from which the picture is seen");
    a("mirror", s.mirror, "");
    a("lamp", s.lamp, "where its light comes from, mm; none where it was not placed");
    a("jaw", s.jaw, "that the axes belong to");
    a("teeth_apart", s.teeth_apart, "");
    a("right_corner", s.right_corner, "null: no retractor holds it");
    a("left_corner", s.left_corner, "null: no retractor holds it");
    a("crowns", s.crowns, "");
    a("bodies", s.bodies, "");
  }
  friend bool operator==(const Scene&, const Scene&) = default;
};

} // namespace norma::planfile
