#include "physics/scene/sheet_room.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace norma::physics {

SheetRoom::SheetRoom(std::span<const Box> bodies, Vec normal, Vec along, Vec across)
    : normal_(normal), along_(along), across_(across) {
  bodies_.reserve(bodies.size());
  for (const Box& b : bodies) {
    Turned t{b.middle, b.half, {}, {}, {}, {}, {}};
    for (std::size_t i = 0; i < 3; ++i) {
      t.normal[i] = dot(b.axes[i], normal);
      t.along[i] = dot(b.axes[i], along);
      t.across[i] = dot(b.axes[i], across);
      t.reach += std::abs(t.normal[i]) * b.half[i];
      t.long_reach += std::abs(t.along[i]) * b.half[i];
    }
    bodies_.push_back(t);
  }
}

SheetRoom::Section SheetRoom::section(Point on, Length begin, std::size_t lines,
                                      Length apart) const {
  Section out;
  for (const Turned& b : bodies_) {
    const Point from = on - b.middle;
    const Length before = physics::along(from, normal_);
    if (abs(before) > b.reach) continue;
    // The lines that can meet it.
    const Length way = physics::along(from, along_) + begin;
    const double first = std::max(0.0, std::ceil((-b.long_reach - way) / apart));
    const double last =
        std::min(static_cast<double>(lines) - 1.0, std::floor((b.long_reach - way) / apart));
    if (first > last) continue;
    const Length side = physics::along(from, across_);
    const std::size_t known = out.taken.size();
    const auto end = static_cast<std::size_t>(last) + 1;
    for (auto line = static_cast<std::size_t>(first); line < end; ++line) {
      const Length at = way + static_cast<double>(line) * apart;
      Length least = -std::numeric_limits<double>::infinity() * mm;
      Length most = std::numeric_limits<double>::infinity() * mm;
      for (std::size_t i = 0; i < 3; ++i) {
        // Of the box's axis i: where the line begins, and how fast it goes.
        const Length start = b.normal[i] * before + b.along[i] * at + b.across[i] * side;
        const double speed = b.across[i];
        constexpr double still = 1e-12;
        if (std::abs(speed) < still) {
          if (abs(start) > b.half[i]) most = least;
          continue;
        }
        const Length one = (-b.half[i] - start) / speed;
        const Length other = (b.half[i] - start) / speed;
        least = std::max(least, std::min(one, other));
        most = std::min(most, std::max(one, other));
      }
      if (least < most) out.taken.push_back({line, least, most});
    }
    if (out.taken.size() > known) out.ends.push_back(out.taken.size());
  }
  return out;
}

std::optional<Length> nearest_free(const SheetRoom::Section& section, std::span<const Length> half,
                                   Length wanted, Length room, Length gap, double first) {
  // Where the sheet's middle cannot be. A body is convex and a sheet's edge runs on without a leap:
  // what one body takes is of one piece.
  std::vector<std::pair<Length, Length>> barred;
  std::size_t begin = 0;
  for (const std::size_t end : section.ends) {
    const auto& of = section.taken;
    Length least = of[begin].from - half[of[begin].line];
    Length most = of[begin].to + half[of[begin].line];
    for (std::size_t i = begin + 1; i < end; ++i) {
      least = std::min(least, of[i].from - half[of[i].line]);
      most = std::max(most, of[i].to + half[of[i].line]);
    }
    begin = end;
    if (most + gap > wanted - room && least - gap < wanted + room)
      barred.emplace_back(least - gap, most + gap);
  }
  std::sort(barred.begin(), barred.end());
  // The free place next to `wanted` on either side.
  Length below = wanted;
  Length above = wanted;
  for (const auto& [least, most] : barred) {
    if (least < above && above < most) above = most;
  }
  std::sort(barred.begin(), barred.end(),
            [](const auto& a, const auto& b) { return a.second > b.second; });
  for (const auto& [least, most] : barred) {
    if (least < below && below < most) below = least;
  }
  const bool up = above - wanted <= room;
  const bool down = wanted - below <= room;
  if (!up && !down) return std::nullopt;
  if (!down) return above;
  if (!up) return below;
  if (above - wanted == wanted - below) return first > 0 ? above : below;
  return above - wanted < wanted - below ? above : below;
}

} // namespace norma::physics
