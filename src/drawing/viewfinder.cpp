#include "drawing/viewfinder.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "drawing/crown.hpp"
#include "drawing/outline.hpp"
#include "physics/scene/viewfinder.hpp"

namespace norma::drawing {
namespace {

using physics::Box;
using physics::Crown;
using physics::Eye;
using physics::Point;
using physics::Vec;

constexpr Angle whole_turn = 360.0 * degree;
constexpr Angle quarter = 90.0 * degree;

/// One lens's picture: the camera's own, or its image's in the mirror, which shows what lies before
/// the mirror alone.
class Picture {
 public:
  Picture(const physics::Pinhole& lens, const std::optional<physics::PlaneMirror>& mirror,
          double width, double height, double scale)
      : lens_(lens), mirror_(mirror), width_(width), height_(height), scale_(scale) {}

  [[nodiscard]] std::optional<Spot> spot(Point p) const {
    if (mirror_ && physics::along(p - mirror_->middle, mirror_->normal) < Length{})
      return std::nullopt;
    const auto at = physics::project(p, lens_);
    if (!at) return std::nullopt;
    return Spot{0.5 * width_ + at->right.in(mm)*scale_, 0.5 * height_ - at->up.in(mm)*scale_};
  }
  [[nodiscard]] std::vector<Spot> spots(const std::vector<Point>& points) const {
    std::vector<Spot> out;
    for (const Point& p : points) {
      if (const auto s = spot(p)) out.push_back(*s);
    }
    return out;
  }
  [[nodiscard]] Length away(Point p) const {
    return physics::along(p - lens_.pupil, lens_.axes.forward);
  }
  [[nodiscard]] const physics::Pinhole& lens() const { return lens_; }

 private:
  const physics::Pinhole& lens_;
  const std::optional<physics::PlaneMirror> mirror_;
  double width_;
  double height_;
  double scale_;
};

/// What is drawn together, and how far it lies from the lens.
struct Piece {
  Length away;
  std::vector<Item> items;
};

/// Draws a crown with its gum.
class ToothPiece {
 public:
  ToothPiece(const Picture& picture, const Crown& crown, bool asked)
      : picture_(picture), c_(crown), asked_(asked) {
    const Point middle = c_.edge + c_.root * (0.5 * c_.size.height);
    const Vec to = physics::unit(physics::direction(middle, picture.lens().pupil));
    bite_ = -physics::dot(to, c_.root);
    face_ = physics::dot(to, c_.facial);
    out_.away = picture.away(middle);
  }

  Piece draw() {
    body();
    if (out_.items.empty()) return std::move(out_);
    if (bite_ > 0.25) table();
    if (face_ > 0.3 && bite_ < 0.5) face();
    return std::move(out_);
  }

 private:
  void add(Role role, std::vector<Spot> through, bool closed, bool smooth) {
    if (through.size() < 2) return;
    out_.items.push_back(shape(role, {std::move(through), closed, smooth}));
  }
  void curve(Role role, const std::vector<Point>& points) {
    add(role, picture_.spots(points), false, true);
  }

  void body() {
    constexpr int around = 24;
    constexpr int levels = 6;
    std::vector<Point> points;
    for (int i = 0; i <= levels; ++i) {
      for (int j = 0; j < around; ++j)
        points.push_back(on_crown(c_, whole_turn * (double(j) / around), double(i) / levels));
    }
    constexpr int spots = 22;
    std::vector<Spot> outline = evenly(hull_of(picture_.spots(points)), spots);
    if (outline.size() < 3) return;
    add(asked_ ? Role::tooth : Role::other_tooth, std::move(outline), true, true);
  }

  /// On the biting table: shares of half the width and half its depth, and down from it.
  [[nodiscard]] Point on_table(double aside, double outwards, double down) const {
    const double front = c_.tooth.is_right() ? 1 : -1; // towards the midline
    return c_.edge + c_.along * (front * aside * 0.5 * c_.size.width) +
           c_.facial * (outwards * 0.5 * c_.shape.edge_depth) + c_.root * (down * mm);
  }
  void groove(Role role, std::initializer_list<std::array<double, 3>> through) {
    std::vector<Point> points;
    for (const auto& [aside, outwards, down] : through)
      points.push_back(on_table(aside, outwards, down));
    curve(role, points);
  }

  /// What is seen from the biting side.
  void table() {
    const Kind kind = kind_of(c_.tooth);
    constexpr int around = 20;
    std::vector<Point> rim;
    for (int j = 0; j < around; ++j)
      rim.push_back(on_crown(c_, whole_turn * (double(j) / around), 0.02,
                             kind == Kind::incisor ? 0.93 : 0.96));
    constexpr int spots = 14;
    add(Role::table, evenly(hull_of(picture_.spots(rim)), spots), true, true);
    switch (kind) {
    case Kind::incisor: return cingulum();
    case Kind::canine:
      groove(Role::ridge, {{-0.7, 0, 0}, {0, 0, 0}, {0.7, 0, 0}});
      return cingulum();
    case Kind::premolar:
      groove(Role::groove, {{-0.55, 0.12, 1}, {-0.2, -0.02, 1}, {0.2, -0.02, 1}, {0.55, 0.12, 1}});
      for (const double end : {-1.0, 1.0}) {
        groove(Role::ridge, {{end * 0.55, 0.12, 1}, {end * 0.68, 0.4, 0.8}});
        groove(Role::ridge, {{end * 0.55, 0.12, 1}, {end * 0.62, -0.25, 0.8}});
      }
      return;
    case Kind::molar: break;
    }
    if (c_.tooth.is_upper()) { // four cusps and the oblique ridge
      groove(Role::groove, {{0.62, 0, 1}, {0.25, 0.10, 1}, {0.12, 0.1, 1}});
      groove(Role::groove, {{0.12, 0.10, 1}, {0, 0.5, 1}, {-0.02, 0.92, 0.6}});
      groove(Role::groove,
             {{-0.62, 0.08, 1}, {-0.42, -0.02, 1}, {-0.30, -0.45, 1}, {-0.22, -0.88, 0.6}});
      groove(Role::ridge, {{0.62, 0, 1}, {0.75, 0.35, 0.8}});
      groove(Role::ridge, {{0.62, 0, 1}, {0.72, -0.35, 0.8}});
      return;
    }
    groove(Role::groove,
           {{-0.65, 0, 1}, {-0.3, 0.08, 1}, {0.05, -0.04, 1}, {0.3, 0.08, 1}, {0.65, 0, 1}});
    groove(Role::groove, {{0.28, 0.05, 1}, {0.3, 0.85, 0.6}});
    groove(Role::groove, {{-0.3, 0.05, 1}, {-0.42, 0.8, 0.6}});
    groove(Role::groove, {{0, 0, 1}, {0, -0.85, 0.6}});
  }

  void cingulum() {
    std::vector<Point> points;
    for (const double t : {-1.0, -0.5, 0.0, 0.5, 1.0})
      points.push_back(on_crown(c_, -quarter + t * 42.0 * degree, 0.6));
    curve(Role::ridge, points);
  }

  /// What is seen from the lips' or the cheek's side.
  void face() {
    const auto down = [&](Role role, Angle around, std::initializer_list<double> ups) {
      std::vector<Point> points;
      for (const double up : ups)
        points.push_back(on_crown(c_, around, up));
      curve(role, points);
    };
    if (kind_of(c_.tooth) == Kind::molar) return down(Role::groove, quarter, {0.03, 0.2, 0.42});
    if (kind_of(c_.tooth) == Kind::premolar) return;
    for (const double aside : {-19.0, 19.0})
      down(Role::ridge, quarter + aside * degree, {0.12, 0.3, 0.5});
  }

  const Picture& picture_;
  const Crown& c_;
  bool asked_;
  double bite_ = 0; // cosine towards the lens
  double face_ = 0;
  Piece out_;
};

/// Teeth of one jaw from the patient's right to the left.
std::vector<const Crown*> jaw_of(const physics::Mouth& mouth, bool upper) {
  std::vector<const Crown*> out;
  for (const Crown& c : mouth.crowns) {
    if (c.tooth.is_upper() == upper) out.push_back(&c);
  }
  return out;
}

/// Gum along a jaw, in strips from tooth to tooth: seen from one side a band from the contacts
/// towards the root, seen from the biting side a ring, with the palate or the floor within it.
class Gums {
 public:
  Gums(const Picture& picture, std::vector<const Crown*> jaw)
      : picture_(picture), jaw_(std::move(jaw)) {}

  void draw(std::vector<Piece>& out) {
    if (jaw_.empty()) return;
    const Crown& front = *jaw_[jaw_.size() / 2];
    const Vec to = physics::unit(physics::direction(front.edge, picture_.lens().pupil));
    const bool from_bite = -physics::dot(to, front.root) > 0.5;
    if (from_bite) within(out);
    for (std::size_t i = 0; i < jaw_.size(); ++i) {
      const Crown& c = *jaw_[i];
      Piece piece{behind(i), {}};
      // Both ends of the strip lie half way to the neighbours.
      std::vector<std::array<Point, 4>> ribs;
      for (const double share : {-0.5, 0.0, 0.5})
        ribs.push_back(rib(i, share));
      const auto band = [&](std::size_t far, std::size_t near) {
        std::vector<Point> around;
        for (const auto& r : ribs)
          around.push_back(r[far]);
        for (auto r = ribs.rbegin(); r != ribs.rend(); ++r)
          around.push_back((*r)[near]);
        std::vector<Spot> spots = picture_.spots(around);
        if (spots.size() > 2)
          piece.items.push_back(shape(Role::gum, {std::move(spots), true, false}));
      };
      if (from_bite) {
        band(1, 2); // over the neck, from cheek to tongue
      } else if (faces(c)) {
        band(0, 1); // cheek's side
      } else {
        band(3, 2); // tongue's side
      }
      out.push_back(std::move(piece));
    }
  }

 private:
  /// Farther than the tooth and both neighbours, which stand before it.
  [[nodiscard]] Length behind(std::size_t i) const {
    Length out;
    for (std::size_t k = i == 0 ? 0 : i - 1; k < std::min(jaw_.size(), i + 2); ++k) {
      const Crown& c = *jaw_[k];
      out = std::max(out, picture_.away(c.edge + c.root * (0.5 * c.size.height)));
    }
    return out + 0.5 * mm;
  }
  [[nodiscard]] bool faces(const Crown& c) const {
    return physics::dot(c.facial, physics::direction(c.edge, picture_.lens().pupil)) > 0;
  }
  static Point neck(const Crown& c, double out) {
    return c.edge + c.root * c.size.height + c.facial * (out * 0.5 * c.size.depth_at_neck);
  }
  /// Far on the cheek's side, near there, near on the tongue's side, far there; `aside`: half way
  /// to the neighbour before or behind it.
  [[nodiscard]] std::array<Point, 4> rib(std::size_t i, double aside) const {
    const Crown& c = *jaw_[i];
    constexpr Length to_root = 7.0 * mm;
    constexpr Length bulge = 2.4 * mm;
    const auto of = [&](const Crown& at, bool between) {
      // Between two teeth gum reaches to their contact; in the middle of one to its neck.
      const Length up = between ? 0.5 * at.size.height : 0.96 * at.size.height;
      const Point foot = at.edge + at.root * up;
      const Length half = 0.5 * at.size.depth_at_neck;
      const Point far = at.edge + at.root * (at.size.height + to_root);
      const Length inset = between ? 0.6 * half : half;
      return std::array<Point, 4>{far + at.facial * (half + bulge), foot + at.facial * inset,
                                  foot - at.facial * inset, far - at.facial * (half + bulge)};
    };
    if (aside == 0) return of(c, false);
    const bool back = aside > 0;
    const bool last = back ? i + 1 == jaw_.size() : i == 0;
    const std::array<Point, 4> here = of(c, true);
    if (last) {
      std::array<Point, 4> out = here;
      for (Point& p : out)
        p = p + c.along * (aside * 1.15 * c.size.width);
      return out;
    }
    const std::array<Point, 4> there = of(*jaw_[back ? i + 1 : i - 1], true);
    std::array<Point, 4> out;
    for (std::size_t k = 0; k < out.size(); ++k) {
      const Vec half = physics::direction(here[k], there[k]) * 0.5;
      out[k] = here[k] + half * (1.0 * mm);
    }
    return out;
  }

  /// The ring of gum around the teeth, and the palate or the floor within it.
  void within(std::vector<Piece>& out) {
    std::vector<Point> inner;
    std::vector<Point> outer;
    Length farthest;
    for (const Crown* c : jaw_) {
      outer.push_back(neck(*c, 1) + c->facial * (2.6 * mm));
      inner.push_back(neck(*c, -1) - c->facial * (0.6 * mm));
      farthest = std::max(farthest, picture_.away(neck(*c, 0)));
    }
    // Behind the last teeth it goes on.
    constexpr Length on = 6.0 * mm;
    for (auto* edge : {&outer, &inner}) {
      edge->insert(edge->begin(), edge->front() + Vec{0, 1, 0} * on);
      edge->push_back(edge->back() + Vec{0, 1, 0} * on);
    }
    Piece piece{farthest + 20.0 * mm, {}};
    const auto closed = [&](Role role, std::vector<Spot> through) {
      if (through.size() > 2) piece.items.push_back(shape(role, {std::move(through), true, false}));
    };
    closed(Role::gum, picture_.spots(outer));
    const std::vector<Spot> hole = picture_.spots(inner);
    closed(Role::palate, hole);
    if (jaw_.front()->tooth.is_upper() && inner.size() > 4) folds(piece, inner);
    out.push_back(std::move(piece));
  }

  /// The line of the palate's middle, and its folds behind the front teeth.
  void folds(Piece& piece, const std::vector<Point>& inner) const {
    const std::size_t n = inner.size();
    const Point front = inner[n / 2] + Vec{-inner[n / 2].x.in(mm), 0, 0} * (1.0 * mm);
    const auto at = [&](Length aside, Length back) {
      return front + Vec{1, 0, 0} * aside + Vec{0, 1, 0} * back;
    };
    const auto line = [&](const std::vector<Point>& through) {
      std::vector<Spot> spots = picture_.spots(through);
      if (spots.size() > 1)
        piece.items.push_back(shape(Role::fold, {std::move(spots), false, true}));
    };
    line({at({}, 4.0 * mm), at({}, 14.0 * mm), at({}, 34.0 * mm)});
    for (int k = 0; k < 3; ++k) {
      const Length back = (5.5 + 3.2 * k) * mm;
      const Length wide = (6.5 + 1.6 * k) * mm;
      for (const double side : {-1.0, 1.0}) {
        line({at(side * 1.4 * mm, back), at(side * 0.55 * wide, back - 0.9 * mm),
              at(side * wide, back + 0.9 * mm)});
      }
    }
  }

  const Picture& picture_;
  std::vector<const Crown*> jaw_;
};

class Viewfinder {
 public:
  Viewfinder(const physics::Mouth& mouth, const Eye& eye, const Marks& marks, double long_side)
      : mouth_(mouth), eye_(eye), marks_(marks),
        scale_(long_side / std::max(eye.sensor.width, eye.sensor.height).in(mm)),
        width_(eye.sensor.width.in(mm)*scale_), height_(eye.sensor.height.in(mm)*scale_) {}

  Drawing draw() {
    out_ = {width_, height_, {}};
    const Line frame = box({0, 0}, width_, height_);
    const Picture in_lens(eye_.lens, eye_.mirror, width_, height_, scale_);
    out_.items.push_back(shape(Role::depth, frame));
    if (eye_.mirror) {
      // Past the mirror's edges the camera sees what lies behind it, and before it what stands
      // there.
      const Line edge{in_lens_edge(), true, false};
      all(Picture(camera_, std::nullopt, width_, height_, scale_), out_.items, true, false,
          edge.through);
      const Picture own(camera_, eye_.mirror, width_, height_, scale_);
      out_.items.push_back(shape(Role::mirror, edge));
      std::vector<Item> reflected;
      all(in_lens, reflected, true, true);
      out_.items.push_back(clipped(edge, std::move(reflected)));
      out_.items.push_back(shape(Role::mirror_back, edge));
      all(own, out_.items, false, false);
    } else {
      all(in_lens, out_.items, true, true);
    }
    for (const AtEdge& one : marks_.edges) {
      if (const auto at = in_lens.spot(one.at)) wedge(*at, one.towards);
    }
    cross({0.5 * width_, 0.5 * height_});
    if (marks_.focus) {
      if (const auto at = in_lens.spot(*marks_.focus)) ring(*at);
    }
    for (const Name& name : marks_.names) {
      if (const auto at = in_lens.spot(name.at)) write(*at, name.text);
    }
    out_.items = {clipped(frame, std::move(out_.items))};
    out_.items.push_back(shape(Role::frame, frame));
    return std::move(out_);
  }

 private:
  [[nodiscard]] std::vector<Spot> in_lens_edge() const {
    const Picture whole(eye_.lens, std::nullopt, width_, height_, scale_);
    return whole.spots(physics::mirror_edge(*eye_.mirror));
  }

  /// Does it stand before a tooth? A cheek reaches far back: its middle may lie beyond the focus
  /// while it hides the last teeth.
  [[nodiscard]] bool hides_teeth(const Picture& picture, const Box& box) const {
    const physics::Boxes alone(std::span(&box, 1));
    return std::any_of(mouth_.crowns.begin(), mouth_.crowns.end(), [&](const Crown& c) {
      const auto points = physics::surface_grid(c, physics::Surface::facial, 3);
      return std::any_of(points.begin(), points.end(), [&](const auto& p) {
        return alone.first_hit(picture.lens().pupil, p.at).has_value();
      });
    });
  }

  /// Of each lip and cheek: does it stand before teeth, or nearer than the focus?
  [[nodiscard]] std::vector<bool> stand_before(const Picture& picture) const {
    std::vector<bool> out;
    for (const Box& b : mouth_.boxes) {
      const bool asked = b.body == physics::Body::lip || b.body == physics::Body::cheek;
      out.push_back(asked && (picture.away(b.middle) < picture.lens().focus_distance ||
                              hides_teeth(picture, b)));
    }
    return out;
  }

  /// Does a lip go on behind this end of its piece?
  [[nodiscard]] bool goes_on(const Box& b, Point end) const {
    return std::any_of(mouth_.boxes.begin(), mouth_.boxes.end(), [&](const Box& other) {
      if (&other == &b || other.body != physics::Body::lip) return false;
      for (std::size_t k = 0; k < 3; ++k) {
        if (abs(physics::along(end - other.middle, other.axes[k])) > other.half[k] + 1.0 * mm)
          return false;
      }
      return true;
    });
  }
  /// A piece of lip or cheek, its end at the corner of the mouth round: by eye.
  [[nodiscard]] std::vector<Point> rounded(const Box& b) const {
    const bool cheek = b.body == physics::Body::cheek;
    const std::size_t way = cheek ? 1 : 0; // a cheek begins in front, a lip ends aside
    const std::size_t across = cheek ? 0 : 1;
    const Length cap = std::min((cheek ? 9.0 : 22.0) * mm, b.half[way]);
    std::vector<Point> out;
    for (const double end : {-1.0, 1.0}) {
      const bool round =
          cheek ? end < 0 : !goes_on(b, b.middle + b.axes[way] * (end * b.half[way]));
      constexpr int steps = 8;
      for (int i = round ? 0 : steps; i <= steps; ++i) {
        const Angle turn = quarter * (double(i) / steps);
        const Length along = round ? b.half[way] - cap + cap * cos(turn) : b.half[way];
        const double wide = round ? sin(turn) : 1.0;
        for (const double x : {-1.0, 1.0}) {
          for (const double z : {-wide, wide})
            out.push_back(b.middle + b.axes[way] * (end * along) +
                          b.axes[across] * (x * b.half[across]) + b.axes[2] * (z * b.half[2]));
        }
      }
    }
    return out;
  }

  /// Lips and cheeks: those beyond the focus that hide no tooth lie behind all else, the others
  /// hide it. One outline around all of them: their lines first, then what is within.
  void soft(const Picture& picture, const std::vector<bool>& before, bool near,
            std::vector<Item>& to) const {
    std::vector<Item> within;
    for (std::size_t i = 0; i < mouth_.boxes.size(); ++i) {
      const Box& b = mouth_.boxes[i];
      if (b.body != physics::Body::lip && b.body != physics::Body::cheek) continue;
      if (before[i] != near) continue;
      const Line outline{hull_of(picture.spots(rounded(b))), true, false};
      if (outline.through.size() < 3) continue;
      // A lip goes on where it lies behind teeth: it keeps its colour.
      const bool lip = b.body == physics::Body::lip;
      if (near || lip) to.push_back(shape(Role::skin_edge, outline));
      within.push_back(shape(near || lip ? Role::skin : Role::cheek_behind, outline));
    }
    to.insert(to.end(), within.begin(), within.end());
  }

  /// `behind`: with lips and cheeks that lie behind; `wanted`: what must show is to be seen here;
  /// `cover`: what lies wholly under it is left out.
  void all(const Picture& picture, std::vector<Item>& to, bool behind, bool wanted,
           const std::vector<Spot>& cover = {}) const {
    const std::vector<bool> before = stand_before(picture);
    if (behind) soft(picture, before, false, to);
    std::vector<Piece> pieces;
    for (const bool upper : {true, false})
      Gums(picture, jaw_of(mouth_, upper)).draw(pieces);
    for (const Crown& c : mouth_.crowns) {
      if (!can_show(picture, c, cover)) continue;
      const bool asked = wanted && std::find(marks_.asked.begin(), marks_.asked.end(), c.tooth) !=
                                       marks_.asked.end();
      pieces.push_back(ToothPiece(picture, c, asked).draw());
    }
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Piece& a, const Piece& b) { return a.away > b.away; });
    for (Piece& p : pieces) {
      std::copy_if(p.items.begin(), p.items.end(), std::back_inserter(to), [&](const Item& item) {
        return meets_frame(item.line) && !lies_under(cover, item.line);
      });
    }
    soft(picture, before, true, to);
  }

  /// Can a part of a crown show, by a ball around it?
  [[nodiscard]] bool can_show(const Picture& picture, const Crown& c,
                              const std::vector<Spot>& cover) const {
    const Point middle = c.edge + c.root * (0.5 * c.size.height);
    const Length wide =
        std::max({c.size.width, c.size.height, c.size.depth_at_neck, c.shape.edge_depth});
    const auto at = picture.spot(middle);
    const auto beside = picture.spot(middle + picture.lens().axes.right * wide);
    // Where it stands so near, or half behind a mirror, it is drawn to find out.
    if (!at || !beside) return true;
    const double radius = 1.2 * std::hypot(beside->x - at->x, beside->y - at->y);
    if (holds_circle(cover, *at, radius)) return false;
    return at->x > -radius && at->y > -radius && at->x < width_ + radius &&
           at->y < height_ + radius;
  }
  static bool lies_under(const std::vector<Spot>& cover, const Line& line) {
    constexpr double width = 0.3; // of half a line, and for curves between spots
    return !cover.empty() && std::all_of(line.through.begin(), line.through.end(),
                                         [&](Spot s) { return holds_circle(cover, s, width); });
  }

  /// Can a part of it show?
  [[nodiscard]] bool meets_frame(const Line& line) const {
    const auto [left, right] = std::minmax_element(line.through.begin(), line.through.end(),
                                                   [](Spot a, Spot b) { return a.x < b.x; });
    const auto [top, bottom] = std::minmax_element(line.through.begin(), line.through.end(),
                                                   [](Spot a, Spot b) { return a.y < b.y; });
    return left != line.through.end() && left->x < width_ && right->x > 0 && top->y < height_ &&
           bottom->y > 0;
  }

  void write(Spot at, const std::string& text) {
    const double size = 0.028 * std::max(width_, height_);
    out_.items.push_back(
        word(Role::word, {at + Spot{0, 0.35 * size}, text, size, Anchor::middle, false}));
  }
  void cross(Spot at) {
    const double arm = 0.035 * width_;
    for (const Role role : {Role::mark_halo, Role::mark}) {
      out_.items.push_back(shape(role, {{at - Spot{arm, 0}, at + Spot{arm, 0}}, false, false}));
      out_.items.push_back(shape(role, {{at - Spot{0, arm}, at + Spot{0, arm}}, false, false}));
    }
  }
  /// Its tip on the edge, beside what lies there.
  void wedge(Spot at, Spot towards) {
    const double size = 0.032 * std::max(width_, height_);
    const Spot across{towards.y, towards.x};
    const Spot tip{
        towards.x == 0 ? std::clamp(at.x, size, width_ - size) : (towards.x > 0 ? width_ : 0.0),
        towards.y == 0 ? std::clamp(at.y, size, height_ - size) : (towards.y > 0 ? height_ : 0.0)};
    const Spot foot = tip - towards * (1.1 * size);
    add_shape(Role::edge_mark, {tip, foot + across * (0.6 * size), foot - across * (0.6 * size)});
  }
  void add_shape(Role role, std::vector<Spot> through) {
    out_.items.push_back(shape(role, {std::move(through), true, false}));
  }
  void ring(Spot at) {
    const double radius = 0.03 * width_;
    std::vector<Spot> around;
    constexpr int spots = 12;
    for (int i = 0; i < spots; ++i) {
      const Angle turn = whole_turn * (double(i) / spots);
      around.push_back(at + Spot{radius * cos(turn), radius * sin(turn)});
    }
    for (const Role role : {Role::mark_halo, Role::mark})
      out_.items.push_back(shape(role, {around, true, true}));
  }

  const physics::Mouth& mouth_;
  const Eye& eye_;
  const Marks& marks_;
  double scale_;
  double width_;
  double height_;
  physics::Pinhole camera_ = physics::camera_of(eye_); // as it really stands
  Drawing out_;
};

} // namespace

Drawing viewfinder(const physics::Mouth& mouth, const physics::Eye& eye, const Marks& marks,
                   double long_side) {
  return Viewfinder(mouth, eye, marks, long_side).draw();
}

} // namespace norma::drawing
