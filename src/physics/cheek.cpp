#include "physics/cheek.hpp"

namespace norma::physics {

std::optional<Length> reach(MouthCorner corner, Length teeth, Point source) {
  const Length outside = -source.x - corner.side;
  if (outside <= 0.0 * mm) return std::nullopt;
  return corner.back + (corner.back - source.y) * ((corner.side - teeth) / outside);
}

} // namespace norma::physics
