#include "physics/scene/boxes.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>

namespace norma::physics {
namespace {

int within(float value, float limit) { return std::abs(value) <= limit ? 1 : 0; }

} // namespace

Length Box::radius() const {
  return sqrt(half[0] * half[0] + half[1] * half[1] + half[2] * half[2]);
}

Boxes::Boxes(std::span<const Box> all, std::span<const std::size_t> of)
    : index_(of.begin(), of.end()) {
  packs_.resize((index_.size() + lanes - 1) / lanes);
  for (std::size_t i = 0; i < packs_.size() * lanes; ++i) {
    for (std::size_t r = 0; r < 3; ++r) {
      float* const lane = &packs_[i / lanes].row[r][0][i % lanes];
      if (i >= index_.size()) { // a lane that nothing meets: far outside of its cube
        lane[0] = lane[lanes] = lane[2 * lanes] = 0.0f;
        lane[3 * lanes] = 1e6f;
        continue;
      }
      const Box& box = all[index_[i]];
      const double half = box.half[r].in(mm);
      const Vec row = box.axes[r] * (1.0 / half);
      lane[0] = static_cast<float>(row.x);
      lane[lanes] = static_cast<float>(row.y);
      lane[2 * lanes] = static_cast<float>(row.z);
      lane[3 * lanes] = static_cast<float>(-along(box.middle, row).in(mm));
    }
  }
}

std::optional<std::size_t> Boxes::first_hit(Point a, Point b) const {
  const auto half = [](Length p, Length q, double sign) {
    return static_cast<float>(0.5 * (p.in(mm) + sign * q.in(mm)));
  };
  const float mx = half(a.x, b.x, 1), my = half(a.y, b.y, 1), mz = half(a.z, b.z, 1);
  const float hx = half(b.x, a.x, -1), hy = half(b.y, a.y, -1), hz = half(b.z, a.z, -1);
  for (std::size_t p = 0; p < packs_.size(); ++p) {
    const Pack& pack = packs_[p];
    std::int32_t met[lanes];
    for (std::size_t l = 0; l < lanes; ++l) {
      const auto place = [&](std::size_t r) {
        return pack.row[r][0][l] * mx + pack.row[r][1][l] * my + pack.row[r][2][l] * mz +
               pack.row[r][3][l];
      };
      const auto way = [&](std::size_t r) {
        return pack.row[r][0][l] * hx + pack.row[r][1][l] * hy + pack.row[r][2][l] * hz;
      };
      const float px = place(0), py = place(1), pz = place(2);
      const float wx = way(0), wy = way(1), wz = way(2);
      const float ax = std::abs(wx), ay = std::abs(wy), az = std::abs(wz);
      // No branches: all lanes are worked out side by side.
      met[l] = within(px, 1.0f + ax) & within(py, 1.0f + ay) & within(pz, 1.0f + az) &
               within(py * wz - pz * wy, ay + az) & within(pz * wx - px * wz, ax + az) &
               within(px * wy - py * wx, ax + ay);
    }
    std::uint32_t bits = 0;
    for (std::size_t l = 0; l < lanes; ++l)
      bits |= static_cast<std::uint32_t>(met[l]) << l;
    if (bits != 0) return index_[p * lanes + static_cast<std::size_t>(std::countr_zero(bits))];
  }
  return std::nullopt;
}

bool may_meet(const Ball& ball, const Ball& from, const Ball& to) {
  const Point span = to.middle - from.middle;
  const Vec way{span.x.in(mm), span.y.in(mm), span.z.in(mm)};
  const Point arm = ball.middle - from.middle;
  const Vec to_ball{arm.x.in(mm), arm.y.in(mm), arm.z.in(mm)};
  const double length = norm(way);
  const double r0 = from.radius.in(mm);
  const double growth = to.radius.in(mm)-r0;
  const auto apart_at = [&](double t) {
    return norm(to_ball - way * t) - (r0 + growth * t) - ball.radius.in(mm);
  };
  double nearest = std::min(apart_at(0.0), apart_at(1.0));
  if (length > std::abs(growth)) {
    const double foot = dot(to_ball, way) / (length * length);
    const double beside = norm(to_ball - way * foot);
    const double t =
        foot + beside * growth / (length * std::sqrt(length * length - growth * growth));
    if (t > 0 && t < 1) nearest = std::min(nearest, apart_at(t));
  }
  return nearest <= 1e-3;
}

} // namespace norma::physics
