// Boxes in space that stop light, and the one question asked of them: does a straight way from a
// point to another pass through one of them?
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "physics/anatomy/tooth.hpp"
#include "physics/geometry.hpp"

namespace norma::physics {

/// What a box stands for.
enum class Body { crown, gum, lip, cheek };

/// A box: its middle, three unit axes square to each other, and half its size along each.
struct Box {
  Point middle;
  std::array<Vec, 3> axes;
  std::array<Length, 3> half;
  Body body = Body::crown;
  Tooth tooth; // of a crown or a piece of gum

  /// Half the diagonal.
  [[nodiscard]] Length radius() const;
};

/// How many boxes are held against a way at once: as many as this machine can, or four as on any.
/// The answers are the same.
enum class Width { widest, four };

/// All places from which and to which ways run, as two balls.
struct Ball {
  Point middle;
  Length radius;
};
/// All straight ways from a point of one ball to a point of another: a cone with round ends.
class Between {
 public:
  Between(const Ball& from, const Ball& to);
  /// Can one of them come within `ball`? Never wrongly no. Source: distance of a point to a cone's
  /// mantle.
  [[nodiscard]] bool may_meet(const Ball& ball) const;

 private:
  Point from_;
  Vec way_; // unit vector
  double length_;
  double r0_;
  double r1_;
  double slope_;   // of the mantle: sine of its half angle
  double cosine_;  // of its half angle; 0 where one ball holds the other
  double tangent_; // the same; 0 there
};

/// Boxes packed for the test, eight side by side. Single precision: 0.03 micrometre at 300 mm.
class Boxes {
 public:
  /// `of`: indices into `all`, in the order in which hits are looked for.
  Boxes(std::span<const Box> all, std::span<const std::size_t> of);
  /// All of them, in their order.
  explicit Boxes(std::span<const Box> all);
  Boxes() = default; // none

  /// Those that one of `ways` may meet, in the same order, in the place of what `out` held: for
  /// many ways from one point, which are then held against few.
  void sift(const Between& ways, Boxes& out) const;

  /// The first box of the order that the straight way from `a` to `b` meets, by its index in
  /// `all`; nothing where the way is free. Source: separating axes of a segment and a box
  /// (Gottschalk 1996).
  [[nodiscard]] std::optional<std::size_t> first_hit(Point a, Point b,
                                                     Width width = Width::widest) const;
  [[nodiscard]] bool empty() const { return index_.empty(); }

 private:
  static constexpr std::size_t lanes = 8;
  /// Rows of the map that makes a box the cube from -1 to 1: three coefficients and an offset each.
  struct Pack {
    alignas(32) float row[3][4][lanes];
  };
  /// The pack whose next lane is for one more box.
  Pack& place_for(std::size_t index, const Ball& around);

  std::vector<Pack> packs_;
  std::vector<std::size_t> index_;
  std::vector<Ball> around_; // each box
};

} // namespace norma::physics
