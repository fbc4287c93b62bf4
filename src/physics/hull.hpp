// The convex polygon around points of a plane.
#pragma once

#include <algorithm>
#include <vector>

namespace norma::physics {

/// Once around, anticlockwise where y points up. `P` has coordinates `x` and `y`, in mm. A point
/// that lies on a side but for the arithmetic's noise is no corner. Source: monotone chains (Andrew
/// 1979).
template <class P> std::vector<P> convex_hull(std::vector<P> points) {
  constexpr double noise = 1e-9; // mm^2
  std::sort(points.begin(), points.end(),
            [](const P& a, const P& b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  const auto turn = [](const P& o, const P& a, const P& b) {
    return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
  };
  std::vector<P> out;
  for (int half = 0; half < 2; ++half) {
    const std::size_t start = out.size();
    for (const P& p : points) {
      while (out.size() >= start + 2 && turn(out[out.size() - 2], out.back(), p) <= noise)
        out.pop_back();
      out.push_back(p);
    }
    if (!out.empty()) out.pop_back(); // the other half begins with it
    std::reverse(points.begin(), points.end());
  }
  return out;
}

} // namespace norma::physics
