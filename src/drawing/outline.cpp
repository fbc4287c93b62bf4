#include "drawing/outline.hpp"

#include <cmath>

#include "physics/hull.hpp"

namespace norma::drawing {

std::vector<Spot> hull_of(std::vector<Spot> spots) {
  std::vector<Spot> out = physics::convex_hull(std::move(spots));
  return out.size() < 3 ? std::vector<Spot>{} : out;
}

std::vector<Spot> evenly(const std::vector<Spot>& polygon, int count) {
  if (polygon.size() < 3) return polygon;
  std::vector<double> way{0};
  const auto next = [&](std::size_t i) { return polygon[(i + 1) % polygon.size()]; };
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Spot d = next(i) - polygon[i];
    way.push_back(way.back() + std::hypot(d.x, d.y));
  }
  std::vector<Spot> out;
  std::size_t i = 0;
  for (int k = 0; k < count; ++k) {
    const double at = way.back() * k / count;
    while (way[i + 1] < at && i + 1 < polygon.size())
      ++i;
    const double piece = way[i + 1] - way[i];
    out.push_back(polygon[i] + (next(i) - polygon[i]) * (piece > 0 ? (at - way[i]) / piece : 0));
  }
  return out;
}

bool holds_circle(const std::vector<Spot>& convex, Spot middle, double radius) {
  if (convex.size() < 3) return false;
  bool right = true;
  bool left = true;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Spot a = convex[i];
    const Spot edge = convex[(i + 1) % convex.size()] - a;
    const Spot to = middle - a;
    const double far = edge.x * to.y - edge.y * to.x;
    const double least = radius * std::hypot(edge.x, edge.y);
    right = right && far >= least;
    left = left && far <= -least;
  }
  return right || left;
}

} // namespace norma::drawing
