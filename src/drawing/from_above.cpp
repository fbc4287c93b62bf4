#include "drawing/from_above.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/crown.hpp"
#include "drawing/outline.hpp"
#include "physics/scene/viewfinder.hpp"

namespace norma::drawing {
namespace {

using physics::Crown;
using physics::Point;

constexpr double reach = 178;    // mm of the room from its middle to the drawing's edge
constexpr double to_middle = 20; // of the drawing, behind the incisors
constexpr double neck = 84;      // behind the incisors

class Chair {
 public:
  Chair(const FromAbove& what, double side)
      : what_(what), side_(side), scale_(0.5 * side / reach), turn_cos_(cos(what.head_turned)),
        turn_sin_(sin(what.head_turned)) {}

  Drawing draw() {
    out_ = {side_, side_, {}};
    shoulders();
    head();
    teeth();
    if (what_.eye.mirror) mirror();
    if (what_.clock) clock();
    camera();
    for (const Pulled& p : what_.pulls)
      pull(p);
    words();
    return std::move(out_);
  }

 private:
  /// Of the chair: to the patient's left and backwards from the incisors, mm.
  [[nodiscard]] Spot chair(double x, double y) const {
    const Spot from_front{x, -(y - to_middle)};
    const Spot seen = what_.stands == Stands::in_front      ? from_front
                      : what_.stands == Stands::behind_head ? Spot{-from_front.x, -from_front.y}
                      : what_.stands == Stands::at_right    ? Spot{from_front.y, -from_front.x}
                                                            : Spot{-from_front.y, from_front.x};
    // About the drawing's middle, wherever one stands.
    return {0.5 * side_ + scale_ * seen.x, 0.5 * side_ + scale_ * seen.y};
  }
  /// Of the head, which turns about the mouth here, so that the camera keeps its place to it.
  [[nodiscard]] Spot spot(double x, double y) const {
    return chair(turn_cos_ * x - turn_sin_ * y, turn_sin_ * x + turn_cos_ * y);
  }
  [[nodiscard]] Spot spot(Point p) const { return spot(p.x.in(mm), p.y.in(mm)); }
  void add(Role role, Line line) { out_.items.push_back(shape(role, std::move(line))); }
  void disc(Role role, Spot at, double radius) {
    std::vector<Spot> around;
    constexpr int spots = 12;
    for (int i = 0; i < spots; ++i) {
      const double turn = 2 * std::numbers::pi * i / spots;
      around.push_back(at + Spot{radius * std::cos(turn), radius * std::sin(turn)} * scale_);
    }
    add(role, {std::move(around), true, true});
  }
  /// A letter in a ring: who holds it.
  void badge(Spot at, const std::string& who) {
    if (who.empty()) return;
    constexpr double radius = 11;
    disc(Role::badge, at, radius);
    const double size = 1.35 * radius * scale_;
    out_.items.push_back(
        word(Role::word, {at + Spot{0, 0.36 * size}, who, size, Anchor::middle, true}));
  }

  /// In the corners behind the head; at the side of the chair that they name. The lamp's in the
  /// corner before it that is farther from the camera.
  void words() {
    const double size = 0.056 * side_;
    const auto put = [&](const std::string& which, bool at_left, bool at_top) {
      const Anchor anchor = at_left ? Anchor::start : Anchor::end;
      const double x = at_left ? 0 : side_;
      const double top = at_top ? size : side_ - 1.5 * size;
      out_.items.push_back(word(Role::word, {{x, top}, what_.of_patient, size, anchor, true}));
      out_.items.push_back(word(Role::word, {{x, top + 1.15 * size}, which, size, anchor, true}));
    };
    const Spot right = chair(-reach, 0);
    const Spot left = chair(reach, 0);
    const bool sideways = what_.stands == Stands::at_right || what_.stands == Stands::at_left;
    // The head's back is at the top, unless one stands behind or beside it.
    const bool back_left = chair(0, reach).x < chair(0, 0).x;
    const bool back_top = what_.stands != Stands::behind_head;
    put(what_.right, sideways ? back_left : right.x < left.x,
        sideways ? right.y < left.y : back_top);
    put(what_.left, sideways ? back_left : left.x < right.x,
        sideways ? left.y < right.y : back_top);
    const bool at_left = sideways ? !back_left : camera_at_.x > 0.5 * side_ - 1e-6;
    const bool at_top = sideways ? camera_at_.y > 0.5 * side_ : !back_top;
    const double small = 0.85 * size;
    const double lines = static_cast<double>(what_.lamp_at.size());
    double y = at_top ? small : side_ - 0.3 * small - 1.15 * small * (lines - 1);
    for (const std::string& line : what_.lamp_at) {
      out_.items.push_back(word(
          Role::word,
          {{at_left ? 0 : side_, y}, line, small, at_left ? Anchor::start : Anchor::end, false}));
      y += 1.15 * small;
    }
  }

  /// They stay as they are when the head turns on them.
  void shoulders() {
    const double x = -turn_sin_ * neck;
    const double y = turn_cos_ * neck;
    std::vector<Spot> around;
    constexpr int spots = 24;
    for (int i = 0; i < spots; ++i) {
      const double turn = 2 * std::numbers::pi * i / spots;
      // Squarer than an ellipse.
      const auto square = [](double v) { return std::copysign(std::pow(std::abs(v), 0.7), v); };
      around.push_back(
          chair(x + 126 * square(std::sin(turn)), y + 8 - 44 * square(std::cos(turn))));
    }
    add(Role::body, {std::move(around), true, true});
  }

  void head() {
    std::vector<Spot> around;
    constexpr int spots = 24;
    for (int i = 0; i < spots; ++i) {
      const double turn = 2 * std::numbers::pi * i / spots;
      const double wide = 76 + 4 * std::cos(2 * turn);
      around.push_back(spot(wide * std::sin(turn), 78 - 98 * std::cos(turn)));
    }
    add(Role::head, {std::move(around), true, true});
    for (const double side : {-1.0, 1.0}) { // ears
      add(Role::head,
          {{spot(side * 76, 84), spot(side * 88, 78), spot(side * 90, 96), spot(side * 78, 104)},
           true,
           true});
    }
    // The nose stands over the lips: farther back the more the face looks up, and under the brow
    // where it looks down.
    const double nose = what_.tipped == Tipped::back ? 16 : what_.tipped == Tipped::down ? -14 : 0;
    add(Role::head, {{spot(-13, -17 + nose), spot(-6, -36 + nose), spot(0, -42 + nose),
                      spot(6, -36 + nose), spot(13, -17 + nose)},
                     false,
                     true});
    if (what_.tipped == Tipped::back) {
      for (const double side : {-1.0, 1.0}) // eyes
        add(Role::head,
            {{spot(side * 22, 84), spot(side * 33, 77), spot(side * 45, 84), spot(side * 33, 88)},
             true,
             true});
    }
    if (what_.tipped != Tipped::no) tip(what_.tipped == Tipped::back);
  }

  /// A hollow arrow over the crown of the head: which way it tips.
  void tip(bool back) {
    const double way = back ? 1 : -1;
    const double from = back ? 96 : 150;
    const auto at = [&](double forth, double aside) { return spot(aside, from + way * forth); };
    add(Role::head_moves,
        {{at(0, -7), at(28, -7), at(28, -17), at(54, 0), at(28, 17), at(28, 7), at(0, 7)},
         true,
         false});
  }

  void teeth() {
    for (const Crown& c : what_.mouth.crowns) {
      if (c.tooth.is_upper() != what_.upper) continue;
      std::vector<Spot> outline;
      constexpr int around = 16;
      for (int j = 0; j < around; ++j)
        outline.push_back(spot(on_crown(c, (360.0 * j / around) * degree, 0.4)));
      outline = evenly(hull_of(std::move(outline)), 10);
      if (outline.size() > 2) add(Role::other_tooth, {std::move(outline), true, true});
    }
  }

  void mirror() {
    const physics::PlaneMirror& m = *what_.eye.mirror;
    std::vector<Spot> edge;
    for (const Point& p : physics::mirror_edge(m))
      edge.push_back(spot(p));
    std::vector<Spot> outline = hull_of(std::move(edge));
    if (outline.size() > 2) add(Role::mirror, {std::move(outline), true, false});
    // Held at the end that lies outside.
    badge(spot(m.middle - m.along * (0.5 * m.length)), what_.mirror_held);
  }

  /// The hours between the ears, around the mouth: where a camera stands is told by them.
  void clock() {
    constexpr double radius = 152;
    for (int hour = 3; hour <= 9; ++hour) {
      const double turn = (hour - 6) * std::numbers::pi / 6;
      const double x = -std::sin(turn);
      const double y = -std::cos(turn);
      const bool named = hour % 3 == 0;
      const double size = 0.058 * side_;
      if (named)
        out_.items.push_back(word(Role::word, {spot(radius * x, radius * y) + Spot{0, 0.36 * size},
                                               std::to_string(hour), size, Anchor::middle, false}));
      const double to = named ? 0.92 * radius : radius;
      add(Role::sight,
          {{spot(0.87 * radius * x, 0.87 * radius * y), spot(to * x, to * y)}, false, false});
    }
  }

  /// The camera's way to what it aims at, and the camera near the edge: distances are not to scale.
  void camera() {
    const physics::Eye& eye = what_.eye;
    const Point aim = eye.mirror ? eye.mirror->middle
                                 : eye.lens.pupil + eye.lens.axes.forward * eye.lens.focus_distance;
    const physics::Vec way = physics::direction(aim, eye.pupil);
    const double flat = std::hypot(way.x, way.y);
    // From above or below it looks down on the mouth: it is drawn where its picture's foot is.
    const bool behind = what_.stands == Stands::behind_head;
    const double x = flat > 0.3 * norm(way) ? way.x / flat : 0;
    const double y = flat > 0.3 * norm(way) ? way.y / flat : (behind ? 1 : -1);
    const double away = 108;
    const double ax = aim.x.in(mm);
    const double ay = aim.y.in(mm);
    const auto along = [&](double forth, double aside) {
      return spot(ax + x * forth - y * aside, ay + y * forth + x * aside);
    };
    add(Role::sight, {{along(4, 0), along(away - 30, 0)}, false, false});
    add(Role::tip, {{along(0, 0), along(9, 4.5), along(9, -4.5)}, true, false});
    add(Role::camera,
        {{along(away - 30, 11), along(away - 30, -11), along(away, -13), along(away, 13)},
         true,
         false}); // lens
    add(Role::camera,
        {{along(away, 25), along(away, -25), along(away + 24, -25), along(away + 24, 25)},
         true,
         false});
    camera_at_ = along(away, 0);
    lamp(x, y, away, along);
    badge(along(away + 12, 0), what_.camera_held);
  }

  template <class Along> void lamp(double x, double y, double away, const Along& along) {
    if (what_.lamp.empty()) return;
    if (what_.lamp.size() > 2) { // a ring around the lens, from its side
      add(Role::lamp, {{along(away - 34, 19), along(away - 34, -19), along(away - 26, -19),
                        along(away - 26, 19)},
                       true,
                       false});
      return;
    }
    for (const Point& p : what_.lamp) {
      const physics::Vec off = physics::direction(what_.eye.pupil, p);
      const double aside = off.x * -y + off.y * x;
      disc(Role::lamp, along(away - 20, std::clamp(aside, -44.0, 44.0)), 9);
    }
  }

  /// Where the cheek is pulled to.
  void pull(const Pulled& p) {
    const double side = p.right ? -1 : 1;
    const double whole = std::hypot(p.outwards, p.back);
    const double out = p.outwards / whole;
    const double back = p.back / whole;
    const double length = 40 * p.firmly;
    const auto at = [&](double forth, double aside) {
      return spot(side * (30 + out * forth - back * aside), 2 + back * forth + out * aside);
    };
    add(Role::pull, {{at(0, 0), at(length - 10, 0)}, false, false});
    add(Role::tip, {{at(length + 5, 0), at(length - 10, 8), at(length - 10, -8)}, true, false});
    badge(at(length + 19, 0), p.who);
  }

  const FromAbove& what_;
  double side_;
  double scale_;
  double turn_cos_;
  double turn_sin_;
  Spot camera_at_;
  Drawing out_;
};

} // namespace

Drawing from_above(const FromAbove& what, double side) { return Chair(what, side).draw(); }

} // namespace norma::drawing
