// A drawing as a list of shapes, each with what it stands for; writers make SVG and PDF of it. The
// folder drawing/ draws a mouth as a camera sees it and a chair from above, from what physics/ says
// of them, and knows of no protocol.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "physics/orientation.hpp"

namespace norma::drawing {

/// A place on a page, millimetres to the right of and below its upper left corner.
struct Spot {
  double x = 0;
  double y = 0;
  friend Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
  friend Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
  friend Spot operator*(Spot a, double k) { return {a.x * k, a.y * k}; }
};

enum class Role {
#define NORMA_ROLE(name, fill, line, width) name,
#include "drawing/roles.def"
#undef NORMA_ROLE
};
struct Look {
  std::string_view name;             // of the role
  std::optional<std::uint32_t> fill; // 0xRRGGBB
  std::optional<std::uint32_t> line;
  double width = 0; // mm
};
const Look& look_of(Role role);
/// Of all roles.
std::span<const Look> looks();

/// A line through spots.
struct Line {
  std::vector<Spot> through;
  bool closed = true;
  bool smooth = false; // curved, by `curves`
};
/// A piece of a cubic Bezier curve: from where the last one ended.
struct Curve {
  Spot near_from;
  Spot near_to;
  Spot to;
};
/// The pieces of a smooth line, from its first spot. Source: Catmull and Rom's spline (1974).
std::vector<Curve> curves(const Line& line);

enum class Anchor { start, middle, end };
/// One line of text; its baseline begins, has its middle or ends at a spot.
struct Label {
  Spot at;
  std::string text;
  double size = 3; // mm
  Anchor anchor = Anchor::middle;
  bool bold = false;
};

struct Item;
/// Items in a frame of their own, of which only what lies within `clip` shows.
struct Group {
  std::vector<Item> items;
  Line clip;
};
struct Item {
  Role role = Role::page;
  /// Of these one: a line, a label or a group.
  Line line{};
  std::optional<Label> label{};
  std::vector<Group> group{}; // one or none
};

/// A page, or a drawing on one.
struct Drawing {
  double width = 0; // mm
  double height = 0;
  std::vector<Item> items;
};

inline Item shape(Role role, Line line) { return {role, std::move(line), {}, {}}; }
inline Item word(Role role, Label label) { return {role, {}, std::move(label), {}}; }
Line box(Spot corner, double width, double height);
Item clipped(Line clip, std::vector<Item> items);

/// A drawing that will be shown small: without lines that are no outline, and with every second
/// spot of smooth ones.
Drawing plainer(const Drawing& drawing);

/// The same drawing, `scale` times as large and turned, its upper left corner at `at`. Labels stay
/// upright.
Item placed(const Drawing& drawing, Spot at, double scale,
            physics::Turn turn = physics::Turn::none);
/// Where a spot of a picture of this size comes to lie.
Spot turned(Spot spot, double width, double height, physics::Turn turn);
/// Does a turn make its width its height?
bool on_its_side(physics::Turn turn);

} // namespace norma::drawing
