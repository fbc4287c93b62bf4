#include "drawing/display.hpp"

#include <iterator>

namespace norma::drawing {
namespace {

constexpr std::nullopt_t none = std::nullopt;
const Look rows[] = {
#define NORMA_ROLE(name, fill, line, width) {#name, fill, line, (width) / 100.0},
#include "drawing/roles.def"
#undef NORMA_ROLE
};

} // namespace

const Look& look_of(Role role) { return rows[static_cast<std::size_t>(role)]; }
std::span<const Look> looks() { return rows; }

std::vector<Curve> curves(const Line& line) {
  const std::vector<Spot>& p = line.through;
  const std::size_t n = p.size();
  if (n < 2) return {};
  const auto at = [&](std::size_t i, int by) {
    const auto k = static_cast<std::ptrdiff_t>(i) + by;
    const auto count = static_cast<std::ptrdiff_t>(n);
    if (line.closed) return p[static_cast<std::size_t>((k + count) % count)];
    return p[static_cast<std::size_t>(k < 0 ? 0 : k >= count ? count - 1 : k)];
  };
  std::vector<Curve> out;
  const std::size_t pieces = line.closed ? n : n - 1;
  out.reserve(pieces);
  constexpr double sixth = 1.0 / 6;
  for (std::size_t i = 0; i < pieces; ++i) {
    const Spot a = at(i, -1);
    const Spot b = at(i, 0);
    const Spot c = at(i, 1);
    const Spot d = at(i, 2);
    out.push_back({b + (c - a) * sixth, c - (d - b) * sixth, c});
  }
  return out;
}

Item clipped(Line clip, std::vector<Item> items) {
  Item out;
  out.group.push_back({std::move(items), std::move(clip)});
  return out;
}

Spot turned(Spot s, double width, double height, physics::Turn turn) {
  using physics::Turn;
  switch (turn) {
  case Turn::none: break;
  case Turn::flip_sideways: return {width - s.x, s.y};
  case Turn::flip_upside_down: return {s.x, height - s.y};
  case Turn::half_turn: return {width - s.x, height - s.y};
  case Turn::quarter_left: return {s.y, width - s.x};
  case Turn::quarter_right: return {height - s.y, s.x};
  case Turn::flip_and_quarter_left: return {s.y, s.x};
  case Turn::flip_and_quarter_right: return {height - s.y, width - s.x};
  }
  return s;
}

namespace {

struct Place {
  double width;
  double height;
  Spot at;
  double scale;
  physics::Turn turn;

  [[nodiscard]] Spot of(Spot s) const { return at + turned(s, width, height, turn) * scale; }
  [[nodiscard]] Line of(Line line) const {
    for (Spot& s : line.through)
      s = of(s);
    return line;
  }
  [[nodiscard]] std::vector<Item> of(const std::vector<Item>& items) const {
    std::vector<Item> out;
    out.reserve(items.size());
    for (const Item& item : items) {
      Item& one = out.emplace_back(item);
      one.line = of(item.line);
      if (one.label) {
        one.label->at = of(item.label->at);
        one.label->size *= scale;
      }
      for (Group& g : one.group) {
        g.clip = of(g.clip);
        g.items = of(g.items);
      }
    }
    return out;
  }
};

} // namespace

Item placed(const Drawing& drawing, Spot at, double scale, physics::Turn turn) {
  const Place place{drawing.width, drawing.height, at, scale, turn};
  return clipped(place.of(box({0, 0}, drawing.width, drawing.height)), place.of(drawing.items));
}

bool on_its_side(physics::Turn turn) { return turn >= physics::Turn::quarter_left; }

Line box(Spot corner, double width, double height) {
  return {{corner, corner + Spot{width, 0}, corner + Spot{width, height}, corner + Spot{0, height}},
          true,
          false};
}

namespace {
bool is_detail(Role role) {
  return role == Role::groove || role == Role::ridge || role == Role::fold || role == Role::table;
}
std::vector<Item> plainer_items(const std::vector<Item>& items) {
  std::vector<Item> out;
  for (const Item& item : items) {
    if (is_detail(item.role)) continue;
    Item one = item;
    for (Group& g : one.group)
      g.items = plainer_items(g.items);
    constexpr std::size_t few = 16;
    if (one.line.smooth && one.line.through.size() >= few) {
      std::vector<Spot> half;
      for (std::size_t i = 0; i < one.line.through.size(); i += 2)
        half.push_back(one.line.through[i]);
      one.line.through = std::move(half);
    }
    out.push_back(std::move(one));
  }
  return out;
}
} // namespace

Drawing plainer(const Drawing& drawing) {
  return {drawing.width, drawing.height, plainer_items(drawing.items)};
}

} // namespace norma::drawing
