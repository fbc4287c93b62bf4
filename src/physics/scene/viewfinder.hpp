// What stands in the picture: the outline of each body as the lens projects it, in the order in
// which they hide each other, and how much of each is seen.
#pragma once

#include <span>
#include <vector>

#include "physics/scene/look.hpp"

namespace norma::physics {

enum class Pictured { crown, gum, lip, cheek, mirror };

/// A closed line on the sensor, from the middle of the picture.
using PictureOutline = std::vector<SensorPoint>;

/// A side of a crown that is turned to the lens.
struct PicturedSurface {
  Surface surface = Surface::facial;
  PictureOutline outline;
};

/// One body in the picture. One that is seen in the mirror is cut off at the mirror's outline.
struct PicturedBody {
  Pictured what = Pictured::crown;
  Tooth tooth; // of a crown or a piece of gum
  bool in_mirror = false;
  PictureOutline outline; // convex; a mirror's with its round corners
  std::vector<PicturedSurface> surfaces;
  Length nearest; // along the axis, from the pupil
  Length farthest;
  double framed = 0;  // share of the outline's area within the frame
  double visible = 0; // of what lies in the frame, the share that nothing nearer hides
};

/// All bodies of which a part lies in the frame, each behind those that stand after it: drawn one
/// over the other they make the picture. In a mirror view the same body may stand there twice,
/// directly and by the mirror. Shares are counted on a grid of `columns` by as many rows as make
/// its cells square. Bodies that run into each other have no order; the one that hides more of the
/// other comes later. Source: painter's order from ways through the cells of the grid.
std::vector<PicturedBody> pictured(const Mouth& mouth, const Eye& eye, int columns = 120);

/// What of a convex polygon lies before a plane, which its normal points away from.
std::vector<Point> before_plane(std::span<const Point> polygon, Point on_plane, Vec normal);

/// The outline of a mirror, once around, its corners as round as they are.
std::vector<Point> mirror_edge(const PlaneMirror& mirror);

} // namespace norma::physics
