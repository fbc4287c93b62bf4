#include "physics/scene/boxes.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace norma::physics {
namespace {

constexpr std::size_t eight = 8;

using Lanes4 = float __attribute__((vector_size(16)));
using Mask4 = std::int32_t __attribute__((vector_size(16)));
using Words4 = std::int64_t __attribute__((vector_size(16)));
using Lanes8 = float __attribute__((vector_size(32)));
using Mask8 = std::int32_t __attribute__((vector_size(32)));
using Words8 = std::int64_t __attribute__((vector_size(32)));

/// Place of the first of `count` packs' boxes that a way meets, past the last where none. `way`:
/// its middle, then half of it. W lanes are worked out side by side: the same operations for every
/// width, so the same answers.
template <class Lanes, class Mask, class Words>
[[gnu::always_inline]] inline std::size_t first_met_by(const float* packs, std::size_t count,
                                                       const float* way) {
  constexpr std::size_t W = sizeof(Lanes) / sizeof(float);
  const Mask no_sign = Mask{} + 0x7fffffff;
  for (std::size_t p = 0; p < count; ++p) {
    for (std::size_t first = 0; first < eight; first += W) {
      const float* const pack = packs + p * 3 * 4 * eight + first;
      Lanes place[3];
      Lanes half[3];
      Lanes size[3];
      Mask met = Mask{} - 1;
      for (std::size_t r = 0; r < 3; ++r) {
        const float* const row = pack + r * 4 * eight;
        const Lanes x = *reinterpret_cast<const Lanes*>(row);
        const Lanes y = *reinterpret_cast<const Lanes*>(row + eight);
        const Lanes z = *reinterpret_cast<const Lanes*>(row + 2 * eight);
        place[r] =
            x * way[0] + y * way[1] + z * way[2] + *reinterpret_cast<const Lanes*>(row + 3 * eight);
        half[r] = x * way[3] + y * way[4] + z * way[5];
        size[r] = reinterpret_cast<Lanes>(reinterpret_cast<Mask>(half[r]) & no_sign);
        const Lanes off = reinterpret_cast<Lanes>(reinterpret_cast<Mask>(place[r]) & no_sign);
        met &= off <= 1.0f + size[r];
      }
      for (std::size_t r = 0; r < 3; ++r) {
        const std::size_t s = (r + 1) % 3;
        const std::size_t t = (r + 2) % 3;
        const Lanes crossed = place[s] * half[t] - place[t] * half[s];
        const Lanes off = reinterpret_cast<Lanes>(reinterpret_cast<Mask>(crossed) & no_sign);
        met &= off <= size[s] + size[t];
      }
      const Words words = reinterpret_cast<Words>(met);
      std::int64_t some = 0;
      for (std::size_t w = 0; w < W / 2; ++w)
        some |= words[w];
      if (some == 0) continue;
      std::size_t l = 0;
      while (met[l] == 0)
        ++l;
      return p * eight + first + l;
    }
  }
  return count * eight;
}

#if defined(__x86_64__)
[[gnu::target("avx2")]] std::size_t first_met_wide(const float* packs, std::size_t count,
                                                   const float* way) {
  return first_met_by<Lanes8, Mask8, Words8>(packs, count, way);
}
#endif

std::size_t first_met(const float* packs, std::size_t count, const float* way,
                      [[maybe_unused]] Width width) {
#if defined(__x86_64__)
  static const bool wide = __builtin_cpu_supports("avx2");
  if (wide && width == Width::widest) return first_met_wide(packs, count, way);
#endif
  return first_met_by<Lanes4, Mask4, Words4>(packs, count, way);
}

} // namespace

Length Box::radius() const {
  return sqrt(half[0] * half[0] + half[1] * half[1] + half[2] * half[2]);
}

namespace {

std::vector<std::size_t> up_to(std::size_t count) {
  std::vector<std::size_t> out(count);
  std::iota(out.begin(), out.end(), std::size_t{0});
  return out;
}

} // namespace

Boxes::Boxes(std::span<const Box> all) : Boxes(all, up_to(all.size())) {}

Boxes::Boxes(std::span<const Box> all, std::span<const std::size_t> of) {
  index_.reserve(of.size());
  around_.reserve(of.size());
  packs_.reserve((of.size() + lanes - 1) / lanes);
  for (const std::size_t i : of) {
    const Box& box = all[i];
    Pack& pack = place_for(i, {box.middle, box.radius()});
    const std::size_t lane = (index_.size() - 1) % lanes;
    for (std::size_t r = 0; r < 3; ++r) {
      const double half = box.half[r].in(mm);
      const Vec row = box.axes[r] * (1.0 / half);
      pack.row[r][0][lane] = static_cast<float>(row.x);
      pack.row[r][1][lane] = static_cast<float>(row.y);
      pack.row[r][2][lane] = static_cast<float>(row.z);
      pack.row[r][3][lane] = static_cast<float>(-along(box.middle, row).in(mm));
    }
  }
}

Boxes::Pack& Boxes::place_for(std::size_t index, const Ball& around) {
  if (index_.size() % lanes == 0) {
    // Lanes that nothing meets: far outside of their cubes.
    Pack& pack = packs_.emplace_back();
    for (auto& row : pack.row)
      std::fill(std::begin(row[3]), std::end(row[3]), 1e6f);
  }
  index_.push_back(index);
  around_.push_back(around);
  return packs_.back();
}

void Boxes::sift(const Between& ways, Boxes& out) const {
  out.index_.clear();
  out.around_.clear();
  out.packs_.clear();
  for (std::size_t i = 0; i < index_.size(); ++i) {
    if (!ways.may_meet(around_[i])) continue;
    const Pack& from = packs_[i / lanes];
    Pack& to = out.place_for(index_[i], around_[i]);
    const std::size_t lane = (out.index_.size() - 1) % lanes;
    for (std::size_t r = 0; r < 3; ++r) {
      for (std::size_t k = 0; k < 4; ++k)
        to.row[r][k][lane] = from.row[r][k][i % lanes];
    }
  }
}

std::optional<std::size_t> Boxes::first_hit(Point a, Point b, Width width) const {
  const auto half = [](Length p, Length q, double sign) {
    return static_cast<float>(0.5 * (p.in(mm) + sign * q.in(mm)));
  };
  const float way[6] = {half(a.x, b.x, 1),  half(a.y, b.y, 1),  half(a.z, b.z, 1),
                        half(b.x, a.x, -1), half(b.y, a.y, -1), half(b.z, a.z, -1)};
  const float* rows = packs_.empty() ? nullptr : &packs_.front().row[0][0][0];
  const std::size_t met = first_met(rows, packs_.size(), way, width);
  if (met >= index_.size()) return std::nullopt;
  return index_[met];
}

Between::Between(const Ball& from, const Ball& to)
    : from_(from.middle), r0_(from.radius.in(mm)), r1_(to.radius.in(mm)) {
  const Point span = to.middle - from.middle;
  const Vec way{span.x.in(mm), span.y.in(mm), span.z.in(mm)};
  length_ = norm(way);
  way_ = length_ > 0 ? way * (1.0 / length_) : Vec{1, 0, 0};
  slope_ = length_ > 0 ? (r1_ - r0_) / length_ : 2.0;
  cosine_ = std::abs(slope_) < 1.0 ? std::sqrt(1.0 - slope_ * slope_) : 0.0;
  tangent_ = cosine_ > 0 ? slope_ / cosine_ : 0.0;
}

bool Between::may_meet(const Ball& ball) const {
  const Point arm = ball.middle - from_;
  const Vec to_ball{arm.x.in(mm), arm.y.in(mm), arm.z.in(mm)};
  const double foot = dot(to_ball, way_);
  const double whole = dot(to_ball, to_ball);
  const double reach = ball.radius.in(mm) + 1e-3;
  const double beside_squared = std::max(0.0, whole - foot * foot);
  if (cosine_ > 0) {
    const double beside = std::sqrt(beside_squared);
    const double at = foot + beside * tangent_;
    if (at > 0 && at < length_) return beside * cosine_ - r0_ - slope_ * foot <= reach;
  }
  const double past = foot - length_;
  const double near = r0_ + reach;
  const double far = r1_ + reach;
  return whole <= near * near || beside_squared + past * past <= far * far;
}

} // namespace norma::physics
