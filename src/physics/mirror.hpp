// Plane mirrors in the mouth: second images, light lost, and how large one must be.
#pragma once

#include <span>

#include "physics/geometry.hpp"
#include "physics/quantity.hpp"

namespace norma::physics {

/// How far the second image of a rear-surface mirror stands beside the first, across the line of
/// sight: t sin 2a / sqrt(n^2 - sin^2 a); t thickness of the glass, a angle of incidence. Source:
/// plane-parallel plate, exact.
Length ghost_offset(Length glass, RefractiveIndex n, Angle incidence);

/// Share of the light that the glass's front reflects: mean of both polarisations. Source:
/// Fresnel's equations.
Share front_reflection(RefractiveIndex n, Angle incidence);

/// Share of the light that a smooth thick metal film in air reflects, n + ik its complex index:
/// mean of both polarisations. Source: Fresnel's equations.
Share metal_reflection(RefractiveIndex n, double k, Angle incidence);

/// Stops lost in one reflection: -log2 R.
Stops loss_of_one_pass(Share reflectance);
/// Stops a picture loses where the lamp's light goes in and out by the mirror: twice that.
Stops loss_of_picture(Share reflectance);

/// Elevation of a camera that looks square at an arch in a mirror opened by `opened` from the
/// biting plane: 90 deg - 2a (from above for the upper arch, from below for the lower one).
Angle camera_elevation(Angle opened);

/// An error e of the mirror's angle alone turns the picture by 2e. Source: law of reflection.
constexpr Angle picture_turned(Angle mirror_error) { return 2.0 * mirror_error; }

/// A vector seen in a mirror with unit normal n.
constexpr Vec reflected(Vec v, Vec n) { return v - 2.0 * dot(v, n) * n; }
/// A point seen in the mirror through `on_mirror` with unit normal n.
constexpr Point reflected(Point p, Point on_mirror, Vec n) {
  return p - n * (2.0 * along(p - on_mirror, n));
}

/// A point of the arch: sideways from the midline, and back from the incisors.
struct ArchPoint {
  Length side;
  Length back;
};
struct MirrorNeed {
  Length width;
  Length length;
};
/// Width and length of a mirror that shows all `points` of an arch. The mirror's back edge lies in
/// the biting plane at `hinge` behind the incisors, and the mirror is opened by `opened` from that
/// plane; the camera's mirror image stands square to the arch at distance `pupil` over the point
/// `centre_back` behind the incisors. A ray from (x, y) to the pupil crosses the mirror at the
/// share s = (h - y) tan a / (D + (yc - y) tan a) of its way, x (1 - s) beside the midline and (h -
/// y(s)) / cos a from the back edge. Source: intersection of a line and a plane.
MirrorNeed mirror_needed(std::span<const ArchPoint> points, Length hinge, Angle opened,
                         Length pupil, Length centre_back);

} // namespace norma::physics
