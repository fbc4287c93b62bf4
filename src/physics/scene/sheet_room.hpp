// Where a flat sheet of a given direction has room between bodies: asked when a mirror's place is
// searched, for many planes and outlines of that one direction.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "physics/scene/boxes.hpp"

namespace norma::physics {

class SheetRoom {
 public:
  /// Three unit vectors square to each other: of the sheet's face, its length and its width.
  SheetRoom(std::span<const Box> bodies, Vec normal, Vec along, Vec across);

  /// What one body takes of one line across the sheet: from `from` to `to`, in the direction of
  /// `across` from the point that the plane goes through.
  struct Taken {
    std::size_t line;
    Length from;
    Length to;
  };
  /// What each body takes: the lines of one body lie next to each other.
  struct Section {
    std::vector<Taken> taken;
    std::vector<std::size_t> ends; // in `taken`, one for each body that is met
  };
  /// Of the plane through `on`, along `lines` lines across it; the first lies `begin` from `on` in
  /// the direction of `along`, each `apart` from the one before. Source: a line and three pairs of
  /// planes (Kay and Kajiya 1986).
  [[nodiscard]] Section section(Point on, Length begin, std::size_t lines, Length apart) const;

 private:
  /// A body in the sheet's directions.
  struct Turned {
    Point middle;
    std::array<Length, 3> half;
    std::array<double, 3> normal, along, across; // of each of the box's own axes
    Length reach;                                // along the sheet's normal
    Length long_reach;                           // along its length
  };
  std::vector<Turned> bodies_;
  Vec normal_, along_, across_;
};

/// The middle of a sheet, nearest to `wanted` and no more than `room` from it, so that no body of
/// the section comes nearer than `gap` to the sheet's edge; nothing where there is none. `half`: of
/// its width, on each line. Of two as near: the one towards `first` (1 or -1).
std::optional<Length> nearest_free(const SheetRoom::Section& section, std::span<const Length> half,
                                   Length wanted, Length room, Length gap, double first);

} // namespace norma::physics
