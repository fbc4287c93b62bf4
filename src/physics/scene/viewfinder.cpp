#include "physics/scene/viewfinder.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <numeric>
#include <optional>
#include <utility>

#include "physics/hull.hpp"

namespace norma::physics {
namespace {

constexpr Length near_plane = 1.0 * mm; // before the pupil nothing is projected
constexpr int grid_points = 5;          // along each side of a crown's surface

struct Flat {
  double x = 0, y = 0; // mm on the sensor
};
using Flats = std::vector<Flat>;

double area(const Flats& p) {
  double twice = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Flat& a = p[i];
    const Flat& b = p[(i + 1) % p.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return 0.5 * std::abs(twice);
}

/// What of a convex polygon lies within a frame of this size around the middle.
Flats within_frame(Flats polygon, double half_width, double half_height) {
  const double sides[4][3] = {
      {1, 0, half_width}, {-1, 0, half_width}, {0, 1, half_height}, {0, -1, half_height}};
  for (const auto& side : sides) {
    Flats out;
    const auto inside = [&](Flat p) { return side[2] - (side[0] * p.x + side[1] * p.y); };
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Flat a = polygon[i];
      const Flat b = polygon[(i + 1) % polygon.size()];
      const double in_a = inside(a);
      const double in_b = inside(b);
      if (in_a >= 0) out.push_back(a);
      if ((in_a >= 0) != (in_b >= 0)) {
        const double share = in_a / (in_a - in_b);
        out.push_back({a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)});
      }
    }
    polygon = std::move(out);
  }
  return polygon;
}

/// A half-space that holds what is looked at.
struct Bound {
  Point at;
  Vec inwards;
};

/// A pinhole, and what bounds the room that it looks into.
struct Lookout {
  Pinhole lens;
  std::vector<Bound> bounds;
};

struct Span {
  double from = 0;
  double to = 0;
};

/// A box as rays from one pupil meet it.
struct RayBox {
  double start[3]; // of the pupil from its middle, along its axes
  double half[3];

  RayBox(const Box& box, Point pupil) {
    const Vec from = direction(box.middle, pupil);
    for (std::size_t k = 0; k < 3; ++k) {
      start[k] = dot(from, box.axes[k]);
      half[k] = box.half[k].in(mm);
    }
  }
  /// Where a ray with these parts along the axes of the box runs through it, in mm along the axis
  /// of the camera.
  [[nodiscard]] std::optional<Span> met(const double (&step)[3]) const {
    Span out{near_plane.in(mm), std::numeric_limits<double>::max()};
    for (std::size_t k = 0; k < 3; ++k) {
      if (std::abs(step[k]) < 1e-12) {
        if (std::abs(start[k]) > half[k]) return std::nullopt;
        continue;
      }
      const double a = (-half[k] - start[k]) / step[k];
      const double b = (half[k] - start[k]) / step[k];
      out.from = std::max(out.from, std::min(a, b));
      out.to = std::min(out.to, std::max(a, b));
      if (out.from > out.to) return std::nullopt;
    }
    return out;
  }
};

/// A body under construction.
struct Candidate {
  PicturedBody body;
  std::array<Vec, 3> axes; // of all its boxes
  std::vector<RayBox> boxes;
  Flats outline;
  double low_x = 0, high_x = 0, low_y = 0, high_y = 0;
  std::int64_t cells = 0; // of the frame that it covers
  std::int64_t free = 0;  // of these, those with nothing before it
};

PictureOutline outline_of(const Flats& points) {
  PictureOutline out;
  for (const Flat& p : points)
    out.push_back({p.x * mm, p.y * mm});
  return out;
}

class Picturing {
 public:
  Picturing(const Mouth& mouth, const Eye& eye, int columns)
      : mouth_(mouth), eye_(eye), columns_(columns), width_(eye.sensor.width.in(mm)),
        height_(eye.sensor.height.in(mm)), cell_(width_ / columns),
        rows_(std::max(1, static_cast<int>(std::lround(height_ / cell_)))) {}

  std::vector<PicturedBody> draw() {
    const Pinhole camera = camera_of(eye_);
    const Lookout direct{camera, {before(camera)}};
    add_bodies(direct, false);
    if (eye_.mirror) {
      add_mirror(direct);
      const Lookout by_mirror{eye_.lens,
                              {before(eye_.lens), {eye_.mirror->middle, eye_.mirror->normal}}};
      add_bodies(by_mirror, true);
    }
    set_rays(direct.lens);
    newest_.assign(rays_.size(), none);
    for (std::size_t i = 0; i < found_.size(); ++i)
      look_for(i);
    in_front_.assign(found_.size() * found_.size(), 0);
    for (const std::size_t newest : newest_)
      count_cell(newest);
    return in_order();
  }

 private:
  static Bound before(const Pinhole& lens) {
    return {lens.pupil + lens.axes.forward * near_plane, lens.axes.forward};
  }

  void add_bodies(const Lookout& from, bool in_mirror) {
    const std::size_t first = found_.size();
    for (const Box& box : mouth_.boxes) {
      const bool of_tooth = box.body == Body::crown || box.body == Body::gum;
      const Pictured what = kind_of(box.body);
      auto at = found_.begin() + static_cast<std::ptrdiff_t>(first);
      if (of_tooth) {
        at = std::find_if(at, found_.end(), [&](const Candidate& c) {
          return c.body.what == what && c.body.tooth == box.tooth;
        });
      } else {
        at = found_.end();
      }
      if (at == found_.end()) {
        Candidate c;
        c.body.what = what;
        c.body.tooth = box.tooth;
        c.body.in_mirror = in_mirror;
        c.axes = box.axes;
        found_.push_back(std::move(c));
        at = found_.end() - 1;
      }
      at->boxes.emplace_back(box, from.lens.pupil);
      if (what != Pictured::crown) add_box(*at, box, from);
    }
    for (std::size_t i = first; i < found_.size(); ++i) {
      if (found_[i].body.what == Pictured::crown) add_crown(found_[i], from);
    }
    // What does not lie in the frame is none of the picture's.
    const auto out_of_it = [&](Candidate& c) { return !settle(c); };
    found_.erase(std::remove_if(found_.begin() + static_cast<std::ptrdiff_t>(first), found_.end(),
                                out_of_it),
                 found_.end());
  }

  static Pictured kind_of(Body body) {
    switch (body) {
    case Body::crown: return Pictured::crown;
    case Body::gum: return Pictured::gum;
    case Body::lip: return Pictured::lip;
    case Body::cheek: return Pictured::cheek;
    }
    return Pictured::crown;
  }

  static void add_point(Candidate& c, Point p, const Pinhole& lens) {
    const auto at = project(p, lens);
    if (!at) return;
    const Length depth = along(p - lens.pupil, lens.axes.forward);
    c.body.nearest = c.outline.empty() ? depth : std::min(c.body.nearest, depth);
    c.body.farthest = c.outline.empty() ? depth : std::max(c.body.farthest, depth);
    c.outline.push_back({at->right.in(mm), at->up.in(mm)});
  }

  static void add_box(Candidate& c, const Box& b, const Lookout& from) {
    const auto corner = [&](std::size_t axis, int side, int s, int t) {
      int sign[3];
      sign[axis] = side;
      sign[(axis + 1) % 3] = s;
      sign[(axis + 2) % 3] = t;
      return b.middle + b.axes[0] * (b.half[0] * sign[0]) + b.axes[1] * (b.half[1] * sign[1]) +
             b.axes[2] * (b.half[2] * sign[2]);
    };
    for (std::size_t axis = 0; axis < 3; ++axis) {
      for (const int side : {-1, 1}) {
        std::vector<Point> face{corner(axis, side, -1, -1), corner(axis, side, 1, -1),
                                corner(axis, side, 1, 1), corner(axis, side, -1, 1)};
        for (const Bound& bound : from.bounds)
          face = before_plane(face, bound.at, bound.inwards);
        for (const Point& p : face)
          add_point(c, p, from.lens);
      }
    }
  }

  void add_crown(Candidate& c, const Lookout& from) const {
    const Crown* crown = find_crown(mouth_.crowns, c.body.tooth);
    if (crown == nullptr) return;
    for (const Surface surface : {Surface::facial, Surface::biting, Surface::lingual}) {
      const auto grid = surface_grid(*crown, surface, grid_points);
      double facing = 0;
      bool whole = true;
      for (const SurfacePoint& p : grid) {
        const bool inside =
            std::all_of(from.bounds.begin(), from.bounds.end(),
                        [&](const Bound& b) { return along(p.at - b.at, b.inwards) >= Length{}; });
        whole = whole && inside;
        if (inside) add_point(c, p.at, from.lens);
        facing += dot(p.normal, unit(direction(p.at, from.lens.pupil)));
      }
      if (facing <= 0 || !whole) continue;
      Flats edge;
      const auto add = [&](int i, int j) {
        const auto at = project(grid[static_cast<std::size_t>(i * grid_points + j)].at, from.lens);
        if (at) edge.push_back({at->right.in(mm), at->up.in(mm)});
      };
      constexpr int last = grid_points - 1;
      for (int i = 0; i < last; ++i)
        add(0, i);
      for (int i = 0; i < last; ++i)
        add(i, last);
      for (int i = last; i > 0; --i)
        add(last, i);
      for (int i = last; i > 0; --i)
        add(i, 0);
      c.body.surfaces.push_back({surface, outline_of(edge)});
    }
  }

  void add_mirror(const Lookout& from) {
    Candidate c;
    c.body.what = Pictured::mirror;
    for (const Point& p : mirror_edge(*eye_.mirror))
      add_point(c, p, from.lens);
    const Flats edge = c.outline;
    if (!settle(c)) return;
    c.body.outline = outline_of(edge);
    mirror_ = found_.size();
    found_.push_back(std::move(c));
  }

  /// Outline and extent of a body whose points are there; no where none of it lies in the frame.
  bool settle(Candidate& c) const {
    c.outline = convex_hull(std::move(c.outline));
    const double whole = area(c.outline);
    if (whole <= 0) return false;
    c.body.framed = std::min(1.0, area(within_frame(c.outline, width_ / 2, height_ / 2)) / whole);
    c.body.outline = outline_of(c.outline);
    // Boxes stand out a little beyond curved faces.
    const double more = 2 * cell_;
    const auto by_x = std::minmax_element(c.outline.begin(), c.outline.end(),
                                          [](Flat a, Flat b) { return a.x < b.x; });
    const auto by_y = std::minmax_element(c.outline.begin(), c.outline.end(),
                                          [](Flat a, Flat b) { return a.y < b.y; });
    c.low_x = by_x.first->x - more;
    c.high_x = by_x.second->x + more;
    c.low_y = by_y.first->y - more;
    c.high_y = by_y.second->y + more;
    return c.body.framed > 0;
  }

  /// The rays through the middle of a cell.
  struct Rays {
    Vec direct;
    Vec by_mirror;
    double plane = 0; // where it meets the plane of the mirror, in mm along the axis; 0: nowhere
    bool in_mirror = false; // within its outline
  };

  void set_rays(const Pinhole& direct) {
    const double scale = eye_.lens.ratio.value() * eye_.lens.focus_distance.in(mm);
    for (int row = 0; row < rows_; ++row) {
      for (int column = 0; column < columns_; ++column) {
        const double x = x_of(column) / scale;
        const double y = y_of(row) / scale;
        const auto ray = [&](const Axes& a) { return a.forward + a.right * x + a.up * y; };
        Rays& rays = rays_.emplace_back();
        rays.direct = ray(direct.axes);
        if (!eye_.mirror) continue;
        rays.by_mirror = ray(eye_.lens.axes);
        const PlaneMirror& m = *eye_.mirror;
        const double away = along(direct.pupil - m.middle, m.normal).in(mm);
        const double step = dot(rays.direct, m.normal);
        if (away <= 0 || step >= 0) continue;
        rays.plane = -away / step;
        rays.in_mirror = m.holds(direct.pupil + rays.direct * (rays.plane * mm));
      }
    }
  }
  [[nodiscard]] double x_of(int column) const { return (column + 0.5) * cell_ - width_ / 2; }
  [[nodiscard]] double y_of(int row) const { return (row + 0.5) * (height_ / rows_) - height_ / 2; }
  /// The first and, behind the last, the end of the cells of a row or column that lie in a stretch.
  static std::pair<int, int> cells_in(double low, double high, double whole, int count) {
    const double size = whole / count;
    const auto cell = [&](double at) {
      return static_cast<int>(
          std::clamp(std::floor((at + whole / 2) / size), 0.0, static_cast<double>(count)));
    };
    return {cell(low), std::min(count, cell(high) + 1)};
  }

  /// Through which cells a body is met, whatever stands before it, and how far away there.
  void look_for(std::size_t index) {
    Candidate& c = found_[index];
    const auto [left, right] = cells_in(c.low_x, c.high_x, width_, columns_);
    const auto [low, high] = cells_in(c.low_y, c.high_y, height_, rows_);
    for (int row = low; row < high; ++row) {
      for (int column = left; column < right; ++column) {
        const std::size_t cell =
            static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
            static_cast<std::size_t>(column);
        const std::optional<double> layer = layer_in(c, rays_[cell]);
        if (!layer) continue;
        ++c.cells;
        if (c.body.in_mirror && !rays_[cell].in_mirror) continue;
        hits_.push_back({index, *layer, newest_[cell]});
        newest_[cell] = hits_.size() - 1;
      }
    }
  }

  /// Nearer ones are less: what stands before the mirror, what is seen in it, the mirror, what it
  /// hides.
  static std::optional<double> layer_in(const Candidate& c, const Rays& rays) {
    constexpr double behind = 1e6; // farther than any depth
    if (c.body.what == Pictured::mirror)
      return rays.in_mirror ? std::optional(2 * behind) : std::nullopt;
    if (c.body.in_mirror && rays.plane <= 0) return std::nullopt;
    const Vec& ray = c.body.in_mirror ? rays.by_mirror : rays.direct;
    const double step[3] = {dot(ray, c.axes[0]), dot(ray, c.axes[1]), dot(ray, c.axes[2])};
    std::optional<double> nearest;
    for (const RayBox& box : c.boxes) {
      const auto met = box.met(step);
      if (!met || (c.body.in_mirror && met->to < rays.plane)) continue;
      const double from = c.body.in_mirror ? std::max(met->from, rays.plane) : met->from;
      nearest = nearest ? std::min(*nearest, from) : from;
    }
    if (!nearest) return std::nullopt;
    if (c.body.in_mirror) return behind + *nearest;
    return rays.in_mirror && *nearest > rays.plane ? 3 * behind + *nearest : *nearest;
  }

  struct Hit {
    std::size_t body;
    double layer;
    std::size_t before; // of the same cell, in `hits_`
  };
  static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

  /// Which of the bodies in a cell hides which, and which is seen.
  void count_cell(std::size_t newest) {
    cell_hits_.clear();
    for (std::size_t at = newest; at != none; at = hits_[at].before)
      cell_hits_.push_back(hits_[at]);
    std::sort(cell_hits_.begin(), cell_hits_.end(), [](const Hit& a, const Hit& b) {
      return a.layer < b.layer || (a.layer == b.layer && a.body < b.body);
    });
    for (std::size_t i = 0; i < cell_hits_.size(); ++i) {
      for (std::size_t j = i + 1; j < cell_hits_.size(); ++j)
        ++in_front_[cell_hits_[i].body * found_.size() + cell_hits_[j].body];
    }
    if (cell_hits_.empty()) return;
    Candidate& first = found_[cell_hits_.front().body];
    ++first.free;
    // A mirror that shows something is seen: only what stands before it hides it.
    if (first.body.in_mirror && found_[mirror_].body.what == Pictured::mirror)
      ++found_[mirror_].free;
  }

  /// Each behind all that hide some of it; where that goes in a circle, the farthest first.
  std::vector<PicturedBody> in_order() {
    const std::size_t n = found_.size();
    const auto before = [&](std::size_t a, std::size_t b) { // a hides b
      return in_front_[a * n + b] > in_front_[b * n + a];
    };
    std::vector<int> hides(n, 0); // how many of those left it hides
    for (std::size_t a = 0; a < n; ++a) {
      for (std::size_t b = 0; b < n; ++b)
        hides[a] += a != b && before(a, b) ? 1 : 0;
    }
    std::vector<std::size_t> left(n);
    std::iota(left.begin(), left.end(), std::size_t{0});
    std::vector<PicturedBody> out;
    while (!left.empty()) {
      const auto next =
          std::min_element(left.begin(), left.end(), [&](std::size_t a, std::size_t b) {
            if (hides[a] != hides[b]) return hides[a] < hides[b];
            return found_[a].body.farthest > found_[b].body.farthest;
          });
      const std::size_t taken = *next;
      left.erase(next);
      for (const std::size_t a : left)
        hides[a] -= before(a, taken) ? 1 : 0;
      Candidate& c = found_[taken];
      if (c.cells == 0) continue;
      c.body.visible = static_cast<double>(c.free) / static_cast<double>(c.cells);
      out.push_back(std::move(c.body));
    }
    return out;
  }

  const Mouth& mouth_;
  const Eye& eye_;
  int columns_;
  double width_; // mm on the sensor
  double height_;
  double cell_;
  int rows_;
  std::vector<Candidate> found_;
  std::size_t mirror_ = 0; // its place in `found_`, where there is one
  std::vector<Rays> rays_; // cell by cell
  std::vector<Hit> hits_;
  std::vector<std::size_t> newest_; // of a cell, in `hits_`
  std::vector<Hit> cell_hits_;
  std::vector<int> in_front_; // in so many cells the one hides the other
};

} // namespace

std::vector<PicturedBody> pictured(const Mouth& mouth, const Eye& eye, int columns) {
  return Picturing(mouth, eye, columns).draw();
}

std::vector<Point> before_plane(std::span<const Point> polygon, Point on_plane, Vec normal) {
  std::vector<Point> out;
  const auto before = [&](Point p) { return along(p - on_plane, normal).in(mm); };
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i];
    const Point b = polygon[(i + 1) % polygon.size()];
    const double at_a = before(a);
    const double at_b = before(b);
    if (at_a >= 0) out.push_back(a);
    if ((at_a >= 0) != (at_b >= 0))
      out.push_back(a + direction(a, b) * (at_a / (at_a - at_b) * mm));
  }
  return out;
}

std::vector<Point> mirror_edge(const PlaneMirror& mirror) {
  // In each corner as many points as make it look round.
  constexpr int corner_points = 6;
  std::vector<Length> ways;
  for (int i = 0; i <= corner_points; ++i) {
    const double in = std::cos(0.5 * std::numbers::pi * i / corner_points); // steps as wide
    if (mirror.corner > Length{} || i == 0)
      ways.push_back(-0.5 * mirror.length + (1.0 - in) * mirror.corner);
  }
  for (std::size_t i = ways.size(); i-- > 0;)
    ways.push_back(-ways[i]);
  std::vector<Point> out;
  const auto add = [&](Length way, double side) {
    const Length half = mirror.half_width(way).value_or(Length{});
    out.push_back(mirror.middle + mirror.along * way + mirror.across * (side * half));
  };
  for (const Length way : ways)
    add(way, -1.0);
  for (auto way = ways.rbegin(); way != ways.rend(); ++way)
    add(*way, 1.0);
  return out;
}

} // namespace norma::physics
