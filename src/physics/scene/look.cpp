#include "physics/scene/look.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "physics/defaults.hpp"
#include "physics/mirror.hpp"
#include "physics/orientation.hpp"

namespace norma::physics {
namespace {

constexpr Length lift = 0.02 * mm; // ways start a little off their face

Hider hider_of(Body body) {
  switch (body) {
  case Body::crown: return Hider::crown;
  case Body::gum: return Hider::gum;
  case Body::lip: return Hider::lip;
  case Body::cheek: return Hider::cheek;
  }
  return Hider::crown;
}

/// What is in the way from a point of a tooth to a place, and which box it was.
struct Stopped {
  Hider by = Hider::nothing;
  std::optional<std::size_t> box;
};

/// A body with the ball around it.
struct Solid {
  std::size_t index; // in the mouth
  Ball ball;
  bool of_tooth;
  Tooth tooth;
};

/// All that a way can meet: nothing that is looked for goes behind the mirror.
std::vector<Solid> bodies_before(const Mouth& mouth, const std::optional<PlaneMirror>& mirror) {
  std::vector<Solid> out;
  out.reserve(mouth.boxes.size());
  for (std::size_t i = 0; i < mouth.boxes.size(); ++i) {
    const Box& b = mouth.boxes[i];
    const Ball ball{b.middle, b.radius()};
    if (mirror && norma::physics::along(b.middle - mirror->middle, mirror->normal) < -ball.radius)
      continue;
    out.push_back({i, ball, b.body == Body::crown || b.body == Body::gum, b.tooth});
  }
  return out;
}

/// The bodies that can stand in the way of one tooth's ways: on the first leg without the tooth
/// itself, which its own points are turned away from, on a second leg with it.
class Surroundings {
 public:
  /// `seen_at`, `real`: where lens and lamp are seen, and where they are.
  Surroundings(const Mouth& mouth, std::span<const Solid> bodies,
               const std::optional<PlaneMirror>& mirror, Tooth own, const Ball& from,
               const Ball& seen_at, const Ball& real)
      : first_(pick(mouth, bodies, own, from, seen_at, true)),
        // Seen from lens and lamp the tooth stands where its image does: the second leg runs there.
        second_(mirror ? pick(mouth, bodies, own,
                              {reflected(from.middle, mirror->middle, mirror->normal), from.radius},
                              real, false)
                       : Boxes({}, {})) {}

  [[nodiscard]] Stopped way(Point from, Point to) const { return stopped(first_, from, to); }
  [[nodiscard]] Stopped way_on(Point from, Point to) const { return stopped(second_, from, to); }

 private:
  static Stopped stopped(const Boxes& boxes, Point from, Point to) {
    const auto hit = boxes.first_hit(from, to);
    return hit ? Stopped{Hider::crown, hit} : Stopped{};
  }
  static Boxes pick(const Mouth& mouth, std::span<const Solid> bodies, Tooth own, const Ball& from,
                    const Ball& to, bool without_own) {
    const Between ways(from, to);
    // Nearest first: the first that is met is the one that is named.
    std::vector<std::pair<double, std::size_t>> met;
    met.reserve(bodies.size());
    for (const Solid& b : bodies) {
      if (without_own && b.of_tooth && b.tooth == own) continue;
      if (ways.may_meet(b.ball))
        met.emplace_back(norm(direction(from.middle, b.ball.middle)), b.index);
    }
    std::sort(met.begin(), met.end());
    std::vector<std::size_t> of;
    of.reserve(met.size());
    for (const auto& [apart, index] : met)
      of.push_back(index);
    return {mouth.boxes, of};
  }
  Boxes first_;
  Boxes second_;
};

/// The way from a point off a face to a place, directly or by the mirror. `image` is where the
/// place stands in the mirror.
class Ways {
 public:
  Ways(const Mouth& mouth, const std::optional<PlaneMirror>& mirror)
      : mouth_(mouth), mirror_(mirror) {}

  [[nodiscard]] Stopped to(const Surroundings& near, Point from, Point place, Point image) const {
    if (!mirror_) return named(near.way(from, place));
    const PlaneMirror& m = *mirror_;
    const double here = norma::physics::along(from - m.middle, m.normal).in(mm);
    const double there = norma::physics::along(image - m.middle, m.normal).in(mm);
    // Point in front of the mirror, the image behind it: else nothing comes back.
    if (here <= 0 || there >= 0) return {Hider::turned_from_mirror, {}};
    const double share = here / (here - there);
    const Point d = image - from;
    const Point on{from.x + d.x * share, from.y + d.y * share, from.z + d.z * share};
    if (!m.holds(on)) return {Hider::beside_mirror, {}};
    const Stopped first = named(near.way(from, on));
    if (first.by != Hider::nothing) return first;
    return named(near.way_on(on, place));
  }

 private:
  [[nodiscard]] Stopped named(Stopped s) const {
    if (s.box) s.by = hider_of(mouth_.boxes[*s.box].body);
    return s;
  }
  const Mouth& mouth_;
  const std::optional<PlaneMirror>& mirror_;
};

/// Which of several things came most often; the first of those that came equally often.
class Tally {
 public:
  explicit Tally(const std::vector<Box>& boxes) : boxes_(boxes) {}
  void add(const Stopped& s) {
    ++counts_[static_cast<std::size_t>(s.by)];
    const bool of_tooth = s.by == Hider::crown || s.by == Hider::gum;
    if (of_tooth) ++teeth_[{s.by, boxes_[*s.box].tooth}];
  }
  [[nodiscard]] Hider most() const {
    std::size_t best = 0;
    int count = 0;
    for (std::size_t i = 1; i < counts_.size(); ++i) {
      if (counts_[i] <= count) continue;
      best = i;
      count = counts_[i];
    }
    return static_cast<Hider>(best);
  }
  /// The tooth of the crown or gum that came most often.
  [[nodiscard]] std::optional<Tooth> tooth_of(Hider h) const {
    std::optional<Tooth> best;
    int count = 0;
    for (const auto& [what, n] : teeth_) {
      if (what.first != h || n <= count) continue;
      best = what.second;
      count = n;
    }
    return best;
  }

 private:
  const std::vector<Box>& boxes_;
  std::array<int, 7> counts_{};
  std::map<std::pair<Hider, Tooth>, int> teeth_;
};

Ball ball_around(std::span<const Point> points) {
  Point sum;
  for (const Point& p : points)
    sum = sum + p;
  const double n = static_cast<double>(points.size());
  Ball ball{{sum.x / n, sum.y / n, sum.z / n}, Length{}};
  for (const Point& p : points)
    ball.radius = std::max(ball.radius, norm(direction(ball.middle, p)) * mm);
  return ball;
}

bool on_sensor(const Eye& eye, Point p) {
  const auto at = project(p, eye.lens);
  return at && abs(at->right) <= 0.5 * eye.sensor.width && abs(at->up) <= 0.5 * eye.sensor.height;
}

} // namespace

Pinhole camera_of(const Eye& eye) {
  Pinhole out = eye.lens;
  out.pupil = eye.pupil;
  if (eye.mirror) out.axes = in_mirror(out.axes, eye.mirror->normal);
  return out;
}

bool PlaneMirror::holds(Point on_plane) const {
  const Point from = on_plane - middle;
  const Length side = abs(physics::along(from, across));
  const Length way = physics::along(from, along);
  const auto half = half_width(way);
  return half && side <= *half;
}

std::optional<Length> PlaneMirror::half_width(Length way) const {
  const Length to_end = 0.5 * length - abs(way);
  if (to_end < Length{}) return std::nullopt;
  const double share = 0.5 + way / length;
  const Length half = 0.5 * (width + (narrow_end - width) * share);
  if (to_end >= corner) return half;
  // Within the corner's circle.
  const double in = (corner - to_end).in(mm);
  const double radius = corner.in(mm);
  return half - corner + std::sqrt(radius * radius - in * in) * mm;
}

bool runs_into(const PlaneMirror& mirror, std::span<const Box> bodies) {
  // The bodies that the sheet's plane goes through, less than a hair beside it.
  std::vector<std::size_t> near;
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    const Box& b = bodies[i];
    constexpr Length hair = 0.01 * mm;
    Length reach = hair;
    for (std::size_t k = 0; k < 3; ++k)
      reach += std::abs(dot(b.axes[k], mirror.normal)) * b.half[k];
    if (abs(along(b.middle - mirror.middle, mirror.normal)) <= reach) near.push_back(i);
  }
  if (near.empty()) return false;
  const Boxes boxes(bodies, near);
  const int lines = static_cast<int>(std::ceil(mirror.length.in(mm)));
  for (int i = 0; i <= lines; ++i) {
    const Length way = (static_cast<double>(i) / lines - 0.5) * mirror.length;
    const Length half = mirror.half_width(way).value_or(Length{});
    const Point middle = mirror.middle + mirror.along * way;
    if (boxes.first_hit(middle - mirror.across * half, middle + mirror.across * half)) return true;
  }
  return false;
}

Lamp ring_lamp(Point centre, const Axes& axes, Length radius, int count) {
  Lamp lamp;
  for (int i = 0; i < count; ++i) {
    const Angle turn = 360.0 * degree * ((i + 0.5) / count);
    lamp.points.push_back(centre + axes.right * (radius * sin(turn)) +
                          axes.up * (radius * cos(turn)));
  }
  return lamp;
}

std::vector<Shown> look(const Mouth& mouth, const Eye& eye, const Lamp* lamp,
                        std::span<const Wanted> wanted, int n) {
  const std::optional<PlaneMirror>& mirror = eye.mirror;
  const auto image = [&](Point p) {
    return mirror ? reflected(p, mirror->middle, mirror->normal) : p;
  };
  const bool heads = lamp != nullptr && !lamp->strengths.empty();
  // Lens and lamp stand in one ball: one choice of bodies does for both.
  std::vector<Point> places{eye.pupil};
  std::vector<Point> images{eye.lens.pupil};
  if (lamp != nullptr) {
    for (const Point& p : lamp->points) {
      places.push_back(p);
      images.push_back(image(p));
    }
  }
  const Ball real = ball_around(places);
  const Ball seen_at = ball_around(images);
  const Ways ways(mouth, mirror);
  const std::vector<Solid> bodies = bodies_before(mouth, mirror);
  std::vector<Shown> out;
  out.reserve(wanted.size());
  std::vector<Point> starts;
  for (const Wanted& w : wanted) {
    const Crown* crown = find_crown(mouth.crowns, w.tooth);
    if (crown == nullptr) continue;
    std::vector<SurfacePoint> own_grid;
    std::span<const SurfacePoint> grid = mouth.grid_at_rest(*crown, w.surface, n);
    if (grid.empty()) grid = own_grid = surface_grid(*crown, w.surface, n);
    starts.clear();
    for (const SurfacePoint& p : grid)
      starts.push_back(p.at + p.normal * lift);
    const Surroundings near(mouth, bodies, mirror, w.tooth, ball_around(starts), seen_at, real);
    Shown s;
    s.tooth = w.tooth;
    s.surface = w.surface;
    Tally hidden(mouth.boxes);
    Tally shaded(mouth.boxes);
    double apparent = 0;
    int seen = 0;
    int beside = 0;
    int turned_to = 0;
    int lit = 0;
    int framed = 0;
    for (std::size_t i = 0; i < grid.size(); ++i) {
      const Vec to_lens = unit(direction(starts[i], eye.lens.pupil));
      const double facing = dot(grid[i].normal, to_lens);
      apparent += std::clamp(facing, 0.0, 1.0);
      framed += on_sensor(eye, grid[i].at) ? 1 : 0;
      if (facing <= 0) continue;
      ++turned_to;
      const Stopped stop = ways.to(near, starts[i], eye.pupil, eye.lens.pupil);
      if (stop.by != Hider::nothing) {
        hidden.add(stop);
        beside += stop.by == Hider::beside_mirror ? 1 : 0;
        continue;
      }
      ++seen;
      if (lamp == nullptr) continue;
      std::size_t reaching = 0;
      double light = 0;
      double unhindered = 0;
      for (std::size_t l = 0; l < lamp->points.size(); ++l) {
        const Vec to_lamp = direction(starts[i], images[l + 1]);
        const double far = norm(to_lamp);
        const double slant = dot(grid[i].normal, to_lamp) / far;
        if (slant <= 0) continue;
        const double part = slant / (far * far) * (heads ? lamp->strengths[l] : 1.0);
        unhindered += part;
        const Stopped dark = ways.to(near, starts[i], lamp->points[l], images[l + 1]);
        if (dark.by != Hider::nothing) {
          shaded.add(dark);
          continue;
        }
        ++reaching;
        light += part;
      }
      s.light += light;
      const bool enough = heads ? light > 0 && light >= defaults::shadow_filled.value * unhindered
                                : 2 * reaching >= lamp->points.size();
      lit += enough ? 1 : 0;
    }
    const double all = static_cast<double>(grid.size());
    s.framed = framed / all;
    s.facing = turned_to / all;
    s.seen = seen / all;
    s.beside = beside / all;
    s.lit = seen > 0 ? static_cast<double>(lit) / seen : 0;
    s.obliquity = std::acos(std::min(1.0, apparent / all)) * radian;
    if (seen > 0 && lamp != nullptr)
      s.light /= static_cast<double>(seen) *
                 (heads ? 1.0 : static_cast<double>(lamp->points.size()));
    s.hider = hidden.most();
    s.hider_tooth = hidden.tooth_of(s.hider);
    s.shade = shaded.most();
    out.push_back(s);
  }
  return out;
}

} // namespace norma::physics
