// Sizes of teeth, and a crown as a body in space: a tapered box with curved faces.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "physics/anatomy/tooth.hpp"
#include "physics/anatomy/values.hpp"
#include "physics/geometry.hpp"
#include "physics/quantity.hpp"

namespace norma::physics {

/// Sizes of a crown: height; width along the arch and depth across it, at their greatest and at the
/// neck.
struct CrownSize {
  Length height;
  Length width;
  Length width_at_neck;
  Length depth;
  Length depth_at_neck;
  friend bool operator==(const CrownSize&, const CrownSize&) = default;
};
/// Sizes by handbook: permanent teeth by Wheeler's Dental Anatomy, 9th ed. 2010; milk teeth by
/// Black as reprinted there (the width of the lower central from memory).
CrownSize crown_size(Tooth tooth);
/// With what was set in place of it. The neck keeps its share of the greatest width and depth.
CrownSize crown_size(Tooth tooth, const AnatomyValues& values);

/// Surfaces; biting is occlusal or incisal, whichever the tooth has.
enum class Surface { facial, biting, lingual };
std::string_view to_text(Surface s);

struct SurfacePoint {
  Point at;
  Vec normal;
};

/// What the table of sizes leaves open: how deep the biting edge is, where along the height the
/// crown is widest and deepest (0 at the edge, 1 at the neck), and how far the face's ends lie
/// behind its middle, in shares of the width.
struct CrownShape {
  Length edge_depth;
  double contact_height = 0;
  double crest_height = 0;
  double face_sag = 0;
  friend bool operator==(const CrownShape&, const CrownShape&) = default;
};
CrownShape crown_shape(Tooth tooth, const CrownSize& size, const AnatomyValues& values);

/// A crown in its place. `edge` is the middle of the biting edge or table; the axes are unit
/// vectors: along the arch (towards the patient's left), towards the lips or cheek, towards the
/// root.
struct Crown {
  Tooth tooth;
  CrownSize size;
  CrownShape shape;
  Point edge;
  Vec along;
  Vec facial;
  Vec root;
  friend bool operator==(const Crown&, const Crown&) = default;
};

/// How deep the crown is from face to tongue side at a share of its height, 0 at the biting edge, 1
/// at the neck.
Length depth_at(const Crown& crown, double height);

/// A part of the height of a crown: 0 at the biting edge, 1 at the neck.
struct Band {
  double from = 0;
  double to = 1;
  friend bool operator==(const Band&, const Band&) = default;
};

/// n x n points (n at least 2) that cover the surface from edge to edge, with outward unit normals;
/// of a face the part within `band`.
std::vector<SurfacePoint> surface_grid(const Crown& crown, Surface surface, int n, Band band = {});

/// A piece of a surface: its middle, and its share of the surface's area.
struct SurfacePiece {
  Point at;
  Vec normal;
  double share = 0;
};
/// How many pieces measure a share of a surface, Fibonacci numbers: to within 0.02 of fine cells
/// where it is told, to within 0.08 where many places are tried.
inline constexpr int fine_pieces = 233;
inline constexpr int usual_pieces = 21;
/// A surface in `count` pieces (rounded up to a Fibonacci number), spread so that no row of them
/// lies along an edge; those of a tooth on the left mirror those on the right. What is cut off by a
/// straight line counts within one piece if it runs along an edge, within two or so elsewhere.
/// Source: Fibonacci lattice (Niederreiter and Sloan 1994, from memory).
std::vector<SurfacePiece> surface_pieces(const Crown& crown, Surface surface,
                                         int count = usual_pieces);

} // namespace norma::physics
