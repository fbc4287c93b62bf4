#include "drawing/outline.hpp"

#include <algorithm>
#include <cmath>

namespace norma::drawing {

std::vector<Spot> hull_of(std::vector<Spot> spots) {
  // Andrew's monotone chain (1979).
  std::sort(spots.begin(), spots.end(),
            [](Spot a, Spot b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  const auto turn = [](Spot o, Spot a, Spot b) {
    return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
  };
  std::vector<Spot> out;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t first = out.size();
    for (const Spot& s : spots) {
      while (out.size() >= first + 2 && turn(out[out.size() - 2], out.back(), s) <= 0)
        out.pop_back();
      out.push_back(s);
    }
    if (!out.empty()) out.pop_back();
    std::reverse(spots.begin(), spots.end());
  }
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

} // namespace norma::drawing
