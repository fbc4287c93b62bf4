#include "drawing/face.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/outline.hpp"
#include "physics/orientation.hpp"

namespace norma::drawing {
namespace {

using physics::Vec;

// A head in millimetres: to the patient's left, backwards and up from the middle between the lips
// and the brow. Height and width as those of a mean head (common practice, no source), the rest by
// eye.
constexpr double two_pi = 2 * std::numbers::pi;
constexpr Vec eye_middle{32, 14, 38};

class Head {
 public:
  Head(const Face& what, double long_side)
      : what_(what), axes_(physics::camera_axes(what.azimuth, what.elevation, Angle{})),
        scale_(long_side / std::max(what.field_width, what.field_height)),
        width_(what.field_width * scale_), height_(what.field_height * scale_) {}

  Drawing draw() {
    out_ = {width_, height_, {}};
    const Line frame = box({0, 0}, width_, height_);
    add(Role::backdrop, frame);
    neck();
    skull();
    for (const double side : {-1.0, 1.0})
      ear(side);
    for (const double side : {-1.0, 1.0})
      eye(side);
    mouth();
    cross();
    if (what_.on_eye) ring(spot(towards_right() ? right_eye() : eye_middle));
    out_.items = {clipped(frame, std::move(out_.items))};
    out_.items.push_back(shape(Role::frame, frame));
    return std::move(out_);
  }

 private:
  /// The camera looks at the middle of the head, from so far that lines stay parallel.
  [[nodiscard]] Spot spot(Vec p) const {
    const Vec from_middle = p - Vec{0, 90, 18};
    return {0.5 * width_ + physics::dot(from_middle, axes_.right) * scale_,
            0.5 * height_ - physics::dot(from_middle, axes_.up) * scale_};
  }
  void add(Role role, Line line) { out_.items.push_back(shape(role, std::move(line))); }
  /// Is a face with this direction turned to the camera?
  [[nodiscard]] bool seen(Vec outwards) const {
    constexpr double grazing = 0.12;
    return -physics::dot(physics::unit(outwards), axes_.forward) > grazing;
  }
  [[nodiscard]] bool towards_right() const { return what_.azimuth > Angle{}; }
  static Vec right_eye() { return {-eye_middle.x, eye_middle.y, eye_middle.z}; }

  std::vector<Spot> hull(const std::vector<Vec>& points, int count) const {
    std::vector<Spot> spots;
    for (const Vec& p : points)
      spots.push_back(spot(p));
    return evenly(hull_of(std::move(spots)), count);
  }
  /// An ellipse about an upright axis, at a height.
  static void level(std::vector<Vec>& out, double back, double up, double wide, double deep) {
    constexpr int around = 20;
    for (int i = 0; i < around; ++i) {
      const double turn = two_pi * i / around;
      out.push_back({wide * std::cos(turn), back + deep * std::sin(turn), up});
    }
  }

  void neck() {
    std::vector<Vec> trunk;
    level(trunk, 110, -158, 150, 46);
    level(trunk, 112, -176, 196, 62);
    level(trunk, 112, -320, 205, 66);
    std::vector<Vec> neck;
    level(neck, 108, -40, 54, 52);
    level(neck, 112, -172, 60, 56);
    add(Role::body, {hull(trunk, 26), true, true});
    add(Role::skin_edge, {hull(neck, 20), true, true});
    add(Role::skin, {hull(neck, 20), true, true});
  }

  void skull() {
    std::vector<Vec> head;
    level(head, 92, 136, 20, 24);
    level(head, 92, 128, 44, 58);
    level(head, 94, 108, 64, 84);
    level(head, 96, 72, 75, 97);
    level(head, 94, 40, 76, 93);
    level(head, 84, 4, 70, 82);
    level(head, 62, -34, 58, 60);
    level(head, 48, -62, 43, 44);
    level(head, 40, -84, 24, 30);
    level(head, 40, -90, 12, 20);
    const std::vector<Vec> nose{{0, 4, 44},   {-7, 6, 30},  {7, 6, 30},  {0, -18, 2}, {-5, -14, -2},
                                {5, -14, -2}, {-15, 4, -4}, {15, 4, -4}, {0, 2, -10}};
    const std::vector<Vec> lips{{0, -7, -36}, {0, -6, -46}, {-20, 4, -40},
                                {20, 4, -40}, {0, 0, -26},  {0, 0, -56}};
    // One outline around all of it: lines first, then what is within.
    const Line outlines[] = {
        {hull(head, 36), true, true}, {hull(nose, 14), true, true}, {hull(lips, 10), true, true}};
    for (const Line& one : outlines)
      add(Role::skin_edge, one);
    for (const Line& one : outlines)
      add(Role::skin, one);
    // What of the nose lies within: its ridge's foot and its wings.
    for (const double side : {-1.0, 1.0}) {
      if (!seen({side, -1, 0})) continue;
      add(Role::skin_edge, {{spot({side * 9, -6, 0}), spot({side * 15, 0, -2}),
                             spot({side * 13, 0, -9}), spot({side * 4, -6, -9})},
                            false,
                            true});
      add(Role::skin_edge,
          {{spot({side * 22, 10, 56}), spot({side * 34, 8, 60}), spot({side * 48, 18, 56})},
           false,
           true});
    }
  }

  void ear(double side) {
    const auto at = [&](double back, double up) { return spot({side * 77, 96 + back, 12 + up}); };
    std::vector<Spot> around;
    constexpr int spots = 12;
    for (int i = 0; i < spots; ++i) {
      const double turn = two_pi * i / spots;
      around.push_back(at(16 * std::cos(turn) + 5 * std::sin(turn), 30 * std::sin(turn)));
    }
    // From the front it is seen by its edge, beside the head.
    if (!seen({side, -0.6, 0})) return;
    add(Role::skin, {around, true, true});
    add(Role::skin_edge, {std::move(around), true, true});
  }

  void eye(double side) {
    const Vec middle{side * eye_middle.x, eye_middle.y, eye_middle.z};
    if (!seen({side * 0.5, -1, 0})) return;
    const auto at = [&](double aside, double up) {
      // Around the ball, which lies back towards the temple.
      return spot(middle + Vec{side * aside, 0.012 * aside * aside + 0.25 * aside, up});
    };
    add(Role::tooth,
        {{at(-15, -2), at(-7, 5), at(3, 6.5), at(14, 1), at(4, -5), at(-7, -5)}, true, true});
    std::vector<Spot> iris;
    constexpr int spots = 10;
    for (int i = 0; i < spots; ++i) {
      const double turn = two_pi * i / spots;
      iris.push_back(at(5 * std::cos(turn), 0.5 + 5 * std::sin(turn)));
    }
    add(Role::camera, {std::move(iris), true, true});
  }

  void mouth() {
    // From one side its nearer half alone is seen.
    const auto along = [&](const std::vector<Vec>& all) {
      std::vector<Spot> out;
      for (const Vec& p : all) {
        if (seen({p.x, -24, 0}) || std::abs(p.x) < 1) out.push_back(spot(p));
      }
      return out;
    };
    if (!what_.smiling) {
      add(Role::skin_edge,
          {along({{-25, 6, -40}, {-12, -3, -40.5}, {0, -7, -41}, {12, -3, -40.5}, {25, 6, -40}}),
           false, true});
      return;
    }
    std::vector<Spot> above =
        along({{-33, 12, -33}, {-16, -1, -38}, {0, -6, -39.5}, {16, -1, -38}, {33, 12, -33}});
    const std::vector<Spot> below = along({{20, 2, -46}, {0, -6, -51}, {-20, 2, -46}});
    above.insert(above.end(), below.begin(), below.end());
    if (above.size() > 2) add(Role::tooth, {std::move(above), true, true});
  }

  void marked(Line line) {
    add(Role::mark_halo, line);
    add(Role::mark, std::move(line));
  }
  void cross() {
    const Spot at{0.5 * width_, 0.5 * height_};
    const double arm = 0.03 * std::max(width_, height_);
    marked({{at - Spot{arm, 0}, at + Spot{arm, 0}}, false, false});
    marked({{at - Spot{0, arm}, at + Spot{0, arm}}, false, false});
  }
  void ring(Spot at) {
    const double radius = 0.03 * std::max(width_, height_);
    std::vector<Spot> around;
    constexpr int spots = 12;
    for (int i = 0; i < spots; ++i) {
      const double turn = two_pi * i / spots;
      around.push_back(at + Spot{radius * std::cos(turn), radius * std::sin(turn)});
    }
    marked({std::move(around), true, true});
  }

  const Face& what_;
  physics::Axes axes_;
  double scale_;
  double width_;
  double height_;
  Drawing out_;
};

} // namespace

Drawing face(const Face& what, double long_side) { return Head(what, long_side).draw(); }

} // namespace norma::drawing
