// The planes in which a mirror beside the tongue may lie, whatever its width: worked out once for
// each direction, asked for many outlines.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "physics/scene/sheet_room.hpp"
#include "placing/pose.hpp"

namespace norma::placing {

/// How such a mirror stands.
struct TongueStand {
  Angle azimuth; // of the camera that looks into it
  Angle above;   // the same: over the biting plane of a lower jaw, under that of an upper one
  Angle rise;    // its length leaves the mouth away from the jaw by this
  Length off;    // from the middle of what is shown
};

/// What of a pose and its surfaces the planes rest on.
struct TongueSight {
  physics::Point aim;
  physics::Point image; // of the pupil: from where the surfaces are seen
  physics::Vec ahead;   // of the camera's image: from the tongue to the teeth
  double up;            // away from the jaw: 1 for a lower one, -1 for an upper one
  std::vector<physics::SurfacePoint> points; // of all surfaces
  std::vector<std::size_t> ends;             // in `points`, one for each surface that is wanted
  Length beyond;                             // by which the far end passes the deepest of them
  Length length;                             // of the mirror
};
TongueSight tongue_sight(const Setting& setting, const Pose& pose, Length length);

/// Lines across a mirror, less one, on which it is held against bodies: a millimetre apart.
std::size_t lines_of(Length length);

/// Where a way from a surface to the lens crosses a plane.
struct Crossing {
  Length way;  // along the mirror
  Length side; // across it
};

/// A plane, and what a mirror meets there.
struct TonguePlane {
  physics::Point on;
  Length far_end;     // along it, from `on`: where the mirror begins
  Length least, most; // across it: where the ways from what must show to the lens's image cross it
  physics::SheetRoom::Section section;
  /// Of what is turned to the lens, surface by surface; worked out when it is asked for.
  std::vector<Crossing> crossings;
  std::vector<std::size_t> ends; // in `crossings`, one for each surface
  /// Would an endless mirror show all? What stands in the way does so whatever the width.
  std::optional<bool> nothing_hides;
};

/// All planes of one direction, nearest to the teeth first.
class TongueDirection {
 public:
  static constexpr Length nearest = 6.0 * mm;
  static constexpr Length farthest = 24.0 * mm;
  static constexpr Length off_step = 2.0 * mm;

  /// Nothing where the mirror would not lead out of the mouth. `bodies`: that it may meet.
  static std::optional<TongueDirection> of(const TongueSight& sight, const TongueStand& stand,
                                           std::span<const physics::Box> bodies);

  /// The plane `off_at(step)` from the middle of what is shown; nothing where the surfaces do not
  /// lie before it.
  std::optional<TonguePlane>& plane(const TongueSight& sight, std::size_t step);
  static Length off_at(std::size_t step) { return nearest + static_cast<double>(step) * off_step; }
  /// Where the way from a point to the image of the pupil crosses a plane. Source: intersection of
  /// a line and a plane.
  [[nodiscard]] Crossing crossing(const TongueSight& sight, const TonguePlane& plane,
                                  physics::Point p) const;
  /// Works out the plane's crossings, once.
  void cross(const TongueSight& sight, TonguePlane& plane) const;

  TongueStand stand;
  physics::Vec normal, along, across;

 private:
  TongueDirection(const TongueStand& s, physics::Vec n, physics::Vec a,
                  std::span<const physics::Box> bodies)
      : stand(s), normal(n), along(a), across(physics::cross(n, a)),
        room_(bodies, normal, along, across) {}
  [[nodiscard]] std::optional<TonguePlane> make_plane(const TongueSight& sight, Length off) const;
  physics::SheetRoom room_;
  std::vector<std::optional<TonguePlane>> planes_;
};

} // namespace norma::placing
