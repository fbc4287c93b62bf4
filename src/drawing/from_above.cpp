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

constexpr double reach = 172; // mm of the room from its middle to the drawing's edge

class Chair {
 public:
  Chair(const FromAbove& what, double side)
      : what_(what), side_(side), scale_(0.5 * side / reach) {}

  Drawing draw() {
    out_ = {side_, side_, {}};
    head();
    teeth();
    if (what_.eye.mirror) mirror();
    camera();
    if (what_.pull_right) pull(-1);
    if (what_.pull_left) pull(1);
    words();
    return std::move(out_);
  }

 private:
  /// Patient's x and y: to the left and backwards from the incisors, mm.
  [[nodiscard]] Spot spot(double x, double y) const {
    constexpr double middle = 20; // of the drawing, behind the incisors
    const double sign = what_.behind ? -1 : 1;
    return {0.5 * side_ + sign * scale_ * x, 0.5 * side_ - sign * scale_ * (y - middle)};
  }
  [[nodiscard]] Spot spot(Point p) const { return spot(p.x.in(mm), p.y.in(mm)); }
  void add(Role role, Line line) { out_.items.push_back(shape(role, std::move(line))); }

  /// In the corners behind the head. Who stands in front has the patient's right at the left hand.
  void words() {
    const double size = 0.06 * side_;
    const double top = what_.behind ? side_ - 1.6 * size : size;
    const auto put = [&](const std::string& which, bool at_left) {
      const Anchor anchor = at_left ? Anchor::start : Anchor::end;
      const double x = at_left ? 0 : side_;
      out_.items.push_back(word(Role::word, {{x, top}, what_.of_patient, size, anchor, true}));
      out_.items.push_back(word(Role::word, {{x, top + 1.2 * size}, which, size, anchor, true}));
    };
    put(what_.right, !what_.behind);
    put(what_.left, what_.behind);
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
    // The nose stands over the lips.
    add(Role::head,
        {{spot(-13, -17), spot(-6, -36), spot(0, -42), spot(6, -36), spot(13, -17)}, false, true});
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
    std::vector<Spot> edge;
    for (const Point& p : physics::mirror_edge(*what_.eye.mirror))
      edge.push_back(spot(p));
    std::vector<Spot> outline = hull_of(std::move(edge));
    if (outline.size() > 2) add(Role::mirror, {std::move(outline), true, false});
  }

  /// The camera's way to what it aims at, and the camera near the edge: distances are not to scale.
  void camera() {
    const physics::Eye& eye = what_.eye;
    const Point aim = eye.mirror ? eye.mirror->middle
                                 : eye.lens.pupil + eye.lens.axes.forward * eye.lens.focus_distance;
    const physics::Vec way = physics::direction(aim, eye.pupil);
    const double flat = std::hypot(way.x, way.y);
    // From above or below it looks down on the mouth: it is drawn where its picture's foot is.
    const double x = flat > 0.3 * norm(way) ? way.x / flat : 0;
    const double y = flat > 0.3 * norm(way) ? way.y / flat : (what_.behind ? 1 : -1);
    const double away = 116;
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
        {{along(away, 25), along(away, -25), along(away + 22, -25), along(away + 22, 25)},
         true,
         false});
    lamp(x, y, away, along);
  }

  template <class Along> void lamp(double x, double y, double away, const Along& along) {
    if (what_.lamp.empty()) return;
    const auto disc = [&](Spot at, double radius) {
      std::vector<Spot> around;
      for (int i = 0; i < 12; ++i) {
        const double turn = 2 * std::numbers::pi * i / 12;
        around.push_back(at + Spot{radius * std::cos(turn), radius * std::sin(turn)} * scale_);
      }
      add(Role::lamp, {std::move(around), true, true});
    };
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
      disc(along(away - 20, std::clamp(aside, -44.0, 44.0)), 9);
    }
  }

  /// Where the cheek is pulled to.
  void pull(double side) {
    add(Role::pull, {{spot(side * 30, 2), spot(side * 66, 8)}, false, false});
    add(Role::tip, {{spot(side * 80, 10), spot(side * 65, 16), spot(side * 67, 1)}, true, false});
  }

  const FromAbove& what_;
  double side_;
  double scale_;
  Drawing out_;
};

} // namespace

Drawing from_above(const FromAbove& what, double side) { return Chair(what, side).draw(); }

} // namespace norma::drawing
