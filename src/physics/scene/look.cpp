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
  bool beyond = false; // an end of the mirror, not a side
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
                       : Boxes()) {}
  Surroundings() = default;

  /// Those of them that ways from one point may meet, in the place of what `out` held. `real`,
  /// `seen_at`: where they lead, in truth and as seen by the mirror.
  void sift(const std::optional<PlaneMirror>& mirror, Point from, const Ball& seen_at,
            const Ball& real, Surroundings& out) const {
    first_.sift({{from, Length{}}, seen_at}, out.first_);
    if (!mirror) return;
    second_.sift({{reflected(from, mirror->middle, mirror->normal), Length{}}, real}, out.second_);
  }

  [[nodiscard]] Stopped way(Point from, Point to) const { return stopped(first_, from, to); }
  [[nodiscard]] Stopped way_on(Point from, Point to) const { return stopped(second_, from, to); }

 private:
  static Stopped stopped(const Boxes& boxes, Point from, Point to) {
    const auto hit = boxes.first_hit(from, to);
    return hit ? Stopped{Hider::crown, hit, false} : Stopped{};
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
    if (here <= 0 || there >= 0) return {Hider::turned_from_mirror, {}, false};
    const double share = here / (here - there);
    const Point d = image - from;
    const Point on{from.x + d.x * share, from.y + d.y * share, from.z + d.z * share};
    if (!m.holds(on)) {
      const Length way = norma::physics::along(on - m.middle, m.along);
      return {Hider::beside_mirror, {}, abs(way) > 0.5 * m.length};
    }
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

/// Which of several things weighs most; the first of those that weigh the same.
class Tally {
 public:
  explicit Tally(const std::vector<Box>& boxes) : boxes_(boxes) {}
  void add(const Stopped& s, double weight) {
    weights_[static_cast<std::size_t>(s.by)] += weight;
    const bool of_tooth = s.by == Hider::crown || s.by == Hider::gum;
    if (of_tooth) teeth_[{s.by, boxes_[*s.box].tooth}] += weight;
  }
  [[nodiscard]] Hider most() const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < weights_.size(); ++i) {
      if (weights_[i] > weights_[best] + hair) best = i;
    }
    return static_cast<Hider>(best);
  }
  [[nodiscard]] double of_bodies() const {
    double sum = 0;
    for (const Hider h : {Hider::crown, Hider::gum, Hider::lip, Hider::cheek})
      sum += weights_[static_cast<std::size_t>(h)];
    return sum;
  }
  /// The tooth of the crown or gum that weighs most.
  [[nodiscard]] std::optional<Tooth> tooth_of(Hider h) const {
    std::optional<Tooth> best;
    double most = 0;
    for (const auto& [what, weight] : teeth_) {
      if (what.first != h || weight <= most + hair) continue;
      best = what.second;
      most = weight;
    }
    return best;
  }

 private:
  static constexpr double hair = 1e-9; // sums of the same in another order
  const std::vector<Box>& boxes_;
  std::array<double, 8> weights_{}; // that of `nothing` stays 0
  std::map<std::pair<Hider, Tooth>, double> teeth_;
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

/// A ball that holds a surface by its grid, and what lies between its points.
Ball ball_around(std::span<const SurfacePoint> grid) {
  constexpr Length between = 0.5 * mm;
  std::vector<Point> points;
  points.reserve(grid.size());
  for (const SurfacePoint& p : grid)
    points.push_back(p.at);
  Ball ball = ball_around(points);
  ball.radius += between;
  return ball;
}

bool on_sensor(const Eye& eye, Point p) {
  const auto at = project(p, eye.lens);
  return at && abs(at->right) <= 0.5 * eye.sensor.width && abs(at->up) <= 0.5 * eye.sensor.height;
}

/// A piece of a surface, and its way to the lens.
struct Piece {
  SurfacePiece of;
  Point start;
  double facing = 0; // cosine of the angle at which its way to the lens leaves it
  Stopped to_lens;   // of one that faces it
};

/// One surface, and the ways that lead from it.
struct Subject {
  const Mouth& mouth;
  const Crown& crown;
  Surface surface;
  const Ways& ways;
  const Surroundings& near;
  const Eye& eye;
  std::map<int, std::vector<Piece>> sampled{};

  /// So many pieces; worked out once.
  const std::vector<Piece>& pieces(int count) {
    std::vector<Piece>& out = sampled[count];
    if (!out.empty()) return out;
    const std::vector<SurfacePiece> all = surface_pieces(crown, surface, count);
    out.reserve(all.size());
    for (const SurfacePiece& one : all) {
      Piece p{one, one.at + one.normal * lift, 0, {}};
      p.facing = dot(one.normal, unit(direction(p.start, eye.lens.pupil)));
      if (p.facing > 0) p.to_lens = ways.to(near, p.start, eye.pupil, eye.lens.pupil);
      out.push_back(p);
    }
    return out;
  }
};

/// What the lens sees of it.
void measure_seen(Subject& subject, int count, Shown& s) {
  const std::vector<Piece>& pieces = subject.pieces(count);
  Vec sum;
  for (const Piece& p : pieces)
    sum = sum + p.of.normal * p.of.share;
  const Vec squarely = unit(sum);
  Tally hidden(subject.mouth.boxes);
  double apparent = 0;
  double apparent_squarely = 0;
  for (const Piece& p : pieces) {
    const double share = p.of.share;
    apparent += share * std::clamp(p.facing, 0.0, 1.0);
    apparent_squarely += share * std::max(0.0, dot(p.of.normal, squarely));
    if (on_sensor(subject.eye, p.of.at)) s.framed += share;
    if (p.facing <= 0) continue;
    s.facing += share;
    if (p.to_lens.by == Hider::nothing) {
      s.seen += share;
      continue;
    }
    hidden.add(p.to_lens, share);
    if (p.to_lens.by == Hider::beside_mirror) s.beside += share;
    if (p.to_lens.beyond) s.beyond += share;
  }
  s.obliquity = std::acos(std::min(1.0, apparent / apparent_squarely)) * radian;
  s.hider = hidden.most();
  s.hider_tooth = hidden.tooth_of(s.hider);
}

/// A lamp, its points' images in the mirror, and a ball around each.
struct Lighting {
  const Lamp& lamp;
  std::vector<Point> images;
  Ball real;
  Ball seen_at;
};

enum class Measured {
  all_or_nothing, // it ends early where not every point of the lamp reaches every piece that is
                  // seen
  clearly,        // the same where more than one in eight of every second point does not reach one
  all,
  whether // each piece is lit: no more points of the lamp are asked than tell that; not `light`
};

/// What the lamp lights of what the lens sees. True where each point of the lamp that is asked
/// (`clearly`: enough of them) reaches each piece that is seen.
bool measure_lit(Subject& subject, const Lighting& lighting, int count, Measured measured,
                 Shown& s) {
  const Lamp& lamp = lighting.lamp;
  Tally shaded(subject.mouth.boxes);
  Surroundings near;
  std::vector<Stopped> dark; // of one piece
  const bool heads = !lamp.strengths.empty();
  const std::size_t step = measured == Measured::clearly ? 2 : 1;
  bool all_reach = true;
  double seen = 0;
  double lit = 0;
  double received = 0;
  for (const Piece& piece : subject.pieces(count)) {
    if (piece.facing <= 0 || piece.to_lens.by != Hider::nothing) continue;
    seen += piece.of.share;
    subject.near.sift(subject.eye.mirror, piece.start, lighting.seen_at, lighting.real, near);
    dark.clear();
    std::size_t reach = 0;
    double light = 0;
    double unhindered = 0;
    for (std::size_t l = 0; l < lamp.points.size(); l += step) {
      const Vec to_lamp = direction(piece.start, lighting.images[l]);
      const double far = norm(to_lamp);
      const double slant = dot(piece.of.normal, to_lamp) / far;
      if (slant <= 0) {
        dark.push_back({Hider::turned_from_lamp, {}, false});
        continue;
      }
      const double part = slant / (far * far) * (heads ? lamp.strengths[l] : 1.0);
      unhindered += part;
      const Stopped by = subject.ways.to(near, piece.start, lamp.points[l], lighting.images[l]);
      if (by.by != Hider::nothing) {
        dark.push_back(by);
        continue;
      }
      light += part;
      ++reach;
      if (measured == Measured::whether && !heads && 2 * reach >= lamp.points.size()) break;
    }
    if (measured == Measured::clearly) {
      if (dark.size() * 8 * step > lamp.points.size()) return false;
      lit += piece.of.share;
      continue;
    }
    received += piece.of.share * light;
    all_reach = all_reach && dark.empty();
    if (!all_reach && measured == Measured::all_or_nothing) return false;
    const bool enough = heads ? light > 0 && light >= defaults::shadow_filled.value * unhindered
                              : 2 * dark.size() <= lamp.points.size();
    if (enough) {
      lit += piece.of.share;
      continue;
    }
    for (const Stopped& by : dark)
      shaded.add(by, piece.of.share / static_cast<double>(dark.size()));
  }
  if (seen > 0) {
    s.lit = lit / seen;
    s.thrown = shaded.of_bodies() / seen;
    if (measured == Measured::all || measured == Measured::all_or_nothing)
      s.light = received / (seen * (heads ? 1.0 : static_cast<double>(lamp.points.size())));
  }
  s.shade = shaded.most();
  return all_reach;
}

/// Where so many pieces are all alike, finer ones are, too, to within 0.02.
constexpr int enough_where_alike = 89;

void measure_seen_as_finely(Subject& subject, int count, Shown& s) {
  if (count > enough_where_alike) {
    Shown first = s;
    measure_seen(subject, enough_where_alike, first);
    const bool framed = first.framed == 0 || first.framed > 1.0 - 1e-9;
    if (framed && (first.seen == 0 || first.seen == first.facing)) {
      s = first;
      return;
    }
  }
  measure_seen(subject, count, s);
}

void measure_lit_as_finely(Subject& subject, const Lighting& lighting, int count, Measured measured,
                           Shown& s) {
  // A lamp of many points has soft shadows, unless they are heads: they need no finer pieces.
  constexpr int for_soft_shadows = 34;
  constexpr int enough_where_all_reach = 13;
  const bool soft = lighting.lamp.points.size() > 1 && lighting.lamp.strengths.empty();
  if (soft) count = std::min(count, for_soft_shadows);
  const int few = soft ? enough_where_all_reach : enough_where_alike;
  const Measured first =
      soft && measured == Measured::whether ? Measured::clearly : Measured::all_or_nothing;
  if (count > few && measure_lit(subject, lighting, few, first, s)) return;
  measure_lit(subject, lighting, count, measured, s);
}

/// Sums of all pieces are 1 but for rounding.
void round_off(Shown& s) {
  for (double* share : {&s.framed, &s.facing, &s.seen, &s.beside, &s.lit})
    if (*share > 1.0 - 1e-9) *share = 1.0;
}

Lighting lighting_of(const Lamp& lamp, const std::optional<PlaneMirror>& mirror) {
  Lighting out{lamp, {}, ball_around(lamp.points), {}};
  for (const Point& p : lamp.points)
    out.images.push_back(mirror ? reflected(p, mirror->middle, mirror->normal) : p);
  out.seen_at = ball_around(out.images);
  return out;
}

/// Shows a subject for each crown of `wanted` to `measure`, with all that can stand in the way to
/// lens and lamp.
template <class Measure>
void for_each_subject(const Mouth& mouth, const Eye& eye, const Lighting* lighting,
                      std::span<const Wanted> wanted, const Measure& measure) {
  // Lens and lamp stand in one ball: one choice of bodies does for both.
  std::vector<Point> places{eye.pupil};
  std::vector<Point> images{eye.lens.pupil};
  if (lighting != nullptr) {
    places.insert(places.end(), lighting->lamp.points.begin(), lighting->lamp.points.end());
    images.insert(images.end(), lighting->images.begin(), lighting->images.end());
  }
  const Ball real = ball_around(places);
  const Ball seen_at = ball_around(images);
  const Ways ways(mouth, eye.mirror);
  const std::vector<Solid> bodies = bodies_before(mouth, eye.mirror);
  for (const Wanted& w : wanted) {
    const Crown* crown = find_crown(mouth.crowns, w.tooth);
    if (crown == nullptr) continue;
    // Its edges, which no piece reaches.
    std::vector<SurfacePoint> own_grid;
    const auto grid = grid_of(mouth, *crown, w.surface, own_grid);
    const Surroundings near(mouth, bodies, eye.mirror, w.tooth, ball_around(grid), seen_at, real);
    Subject subject{mouth, *crown, w.surface, ways, near, eye};
    measure(subject, grid);
  }
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

namespace {

bool sheet_runs_into(const PlaneMirror& mirror, std::span<const Box> bodies) {
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

} // namespace

bool runs_into(const PlaneMirror& mirror, std::span<const Box> bodies) {
  if (sheet_runs_into(mirror, bodies)) return true;
  if (mirror.thickness <= Length{}) return false;
  PlaneMirror back = mirror;
  back.middle = back.middle - back.normal * back.thickness;
  return sheet_runs_into(back, bodies);
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

std::span<const SurfacePoint> grid_of(const Mouth& mouth, const Crown& crown, Surface surface,
                                      std::vector<SurfacePoint>& own) {
  const auto grid = mouth.grid_at_rest(crown, surface, Anatomy::grid_side);
  if (!grid.empty()) return grid;
  own = surface_grid(crown, surface, Anatomy::grid_side);
  return own;
}

bool cut_by_frame(std::span<const SurfacePoint> grid, const Eye& eye) {
  return !std::all_of(grid.begin(), grid.end(),
                      [&](const SurfacePoint& p) { return on_sensor(eye, p.at); });
}

std::vector<Shown> look(const Mouth& mouth, const Eye& eye, const Lamp* lamp,
                        std::span<const Wanted> wanted, int pieces, Light light) {
  const Measured measured = light == Light::whether ? Measured::whether : Measured::all;
  std::optional<Lighting> lighting;
  if (lamp != nullptr) lighting.emplace(lighting_of(*lamp, eye.mirror));
  std::vector<Shown> out;
  out.reserve(wanted.size());
  for_each_subject(mouth, eye, lighting ? &*lighting : nullptr, wanted,
                   [&](Subject& subject, std::span<const SurfacePoint> grid) {
                     Shown& s = out.emplace_back();
                     s.tooth = subject.crown.tooth;
                     s.surface = subject.surface;
                     s.cut = cut_by_frame(grid, eye);
                     measure_seen_as_finely(subject, pieces, s);
                     if (lighting) measure_lit_as_finely(subject, *lighting, pieces, measured, s);
                     round_off(s);
                   });
  return out;
}

} // namespace norma::physics
