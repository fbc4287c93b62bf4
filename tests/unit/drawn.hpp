// What stands where in a drawing; what the tests of drawings share.
#pragma once

#include <vector>

#include "drawing/display.hpp"

namespace norma::test {

/// All items, those within groups too, in the order in which they are drawn.
inline void flatten(const std::vector<drawing::Item>& items,
                    std::vector<const drawing::Item*>& out) {
  for (const drawing::Item& item : items) {
    out.push_back(&item);
    for (const drawing::Group& g : item.group)
      flatten(g.items, out);
  }
}
inline std::vector<const drawing::Item*> flat(const drawing::Drawing& d) {
  std::vector<const drawing::Item*> out;
  flatten(d.items, out);
  return out;
}

inline bool within(const std::vector<drawing::Spot>& polygon, drawing::Spot p) {
  bool in = false; // ways across the edges
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const drawing::Spot a = polygon[i];
    const drawing::Spot b = polygon[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) in = !in;
  }
  return in;
}

/// What the last body is that is drawn there, and shows; `page` where there is none.
inline drawing::Role top_at(const std::vector<drawing::Item>& items, drawing::Spot spot,
                            drawing::Role top = drawing::Role::page) {
  for (const drawing::Item& item : items) {
    for (const drawing::Group& g : item.group) {
      if (within(g.clip.through, spot)) top = top_at(g.items, spot, top);
    }
    if (!item.label && drawing::look_of(item.role).fill && item.line.closed &&
        item.line.through.size() > 2 && within(item.line.through, spot))
      top = item.role;
  }
  return top;
}

} // namespace norma::test
