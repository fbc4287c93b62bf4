// The scene: boxes, mouths, and what a camera sees. Checks against brute force, closed forms and
// the trade's common practice stand side by side.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "physics/cheek.hpp"
#include "physics/defaults.hpp"
#include "physics/mirror.hpp"
#include "physics/optics.hpp"
#include "physics/scene/glare.hpp"
#include "physics/scene/look.hpp"

using namespace norma;
using namespace norma::physics;

namespace {

constexpr Magnification half_size{0.5};
constexpr Length macro = 100.0 * mm;

MouthCorner firm() {
  return {defaults::corner_side_firm.value * mm, defaults::corner_back_firm.value * mm};
}
MouthCorner light() {
  return {defaults::corner_side_light.value * mm, defaults::corner_back_light.value * mm};
}

/// A camera at 1:2 on 36 x 24 mm with a 100 mm lens, aimed at a point.
Eye camera(Angle azimuth, Point aim) {
  const Axes axes = camera_axes(azimuth, Angle{}, Angle{});
  const Length far = pupil_distance(macro, half_size, PupilRatio{1.0});
  Eye eye;
  eye.pupil = aim - axes.forward * far;
  eye.lens = {eye.pupil, axes, half_size, far};
  eye.sensor = {36.0 * mm, 24.0 * mm};
  return eye;
}

std::vector<Wanted> facial(std::initializer_list<int> teeth) {
  std::vector<Wanted> out;
  for (const int iso : teeth)
    out.push_back({*Tooth::from_iso(iso), Surface::facial});
  return out;
}

Point at_tooth(const Mouth& mouth, int iso) {
  return find_crown(mouth.crowns, *Tooth::from_iso(iso))->edge;
}

/// A side view from the right, 60 degrees, centred on 14: the record's.
std::vector<Shown> side_view(MouthCorner corner, const Lamp* lamp,
                             std::initializer_list<int> teeth) {
  const Mouth mouth = make_mouth({.right = corner, .left = light()});
  return look(mouth, camera(60.0 * degree, at_tooth(mouth, 14)), lamp, facial(teeth));
}

/// A point light beside the lens, towards the picture's right (the front teeth) or left (the
/// cheek).
Lamp point_lamp(Length offset, Length away) {
  const Mouth mouth = make_mouth({});
  const Eye eye = camera(60.0 * degree, at_tooth(mouth, 14));
  return {{at_tooth(mouth, 14) - eye.lens.axes.forward * away + eye.lens.axes.right * offset}};
}

double sum_of(const std::vector<Shown>& shown, double Shown::*what) {
  double sum = 0;
  for (const Shown& s : shown)
    sum += s.*what;
  return sum;
}

Box random_box(std::mt19937& random) {
  std::uniform_real_distribution<double> place(-20, 20);
  std::uniform_real_distribution<double> size(0.5, 8);
  const Axes axes = camera_axes(place(random) * 9.0 * degree, place(random) * 4.0 * degree,
                                place(random) * 9.0 * degree);
  Box b;
  b.middle = {place(random) * mm, place(random) * mm, place(random) * mm};
  b.axes = {axes.forward, axes.right, axes.up};
  b.half = {size(random) * mm, size(random) * mm, size(random) * mm};
  return b;
}

/// How deep a point lies in a box, as the least distance from a face; below 0 outside.
double depth_in(const Box& b, Point p) {
  double least = 1e9;
  for (std::size_t i = 0; i < 3; ++i)
    least = std::min(least, (b.half[i] - abs(along(p - b.middle, b.axes[i]))).in(mm));
  return least;
}

} // namespace

namespace {

/// The record's upper arch by mirror: second molar to second molar, wide end behind the last tooth.
struct ByMirror {
  Mouth mouth;
  Eye eye;
  std::vector<Wanted> wanted;
};
ByMirror upper_by_mirror(Length width, Angle opened) {
  const Mouth mouth = make_mouth({.of_upper = true, .opened = jaw_open(44.3 * mm)});
  Length back;
  for (const Crown& c : mouth.crowns) {
    if (c.tooth == *Tooth::from_iso(17)) back = c.edge.y + 0.5 * c.size.width;
  }
  const Axes camera = camera_axes(Angle{}, camera_elevation(opened), Angle{});
  const Axes seen = in_mirror(camera, arch_mirror_normal(true, opened));
  const Length far = pupil_distance(macro, half_size, PupilRatio{1.0});
  Eye eye;
  eye.lens = {Point{Length{}, 0.5 * back, Length{}} - seen.forward * far, seen, half_size, far};
  eye.sensor = {36.0 * mm, 36.0 * mm};
  PlaneMirror m;
  m.normal = arch_mirror_normal(true, opened);
  m.across = {1, 0, 0};
  m.along = {0, -cos(opened), -sin(opened)};
  m.length = 130.0 * mm;
  m.width = m.narrow_end = width;
  m.middle = Point{Length{}, back + 2.0 * mm, Length{}} + m.along * (0.5 * m.length);
  eye.mirror = m;
  eye.pupil = reflected(eye.lens.pupil, m.middle, m.normal);
  std::vector<Wanted> wanted;
  for (const int iso : {11, 12, 13, 14, 15, 16, 17})
    wanted.push_back({*Tooth::from_iso(iso), Surface::biting});
  return {mouth, eye, wanted};
}
std::vector<Shown> arch_by_mirror(Length width, Angle opened) {
  const ByMirror v = upper_by_mirror(width, opened);
  return look(v.mouth, v.eye, nullptr, v.wanted);
}

} // namespace

TEST_CASE("a way through a box is found, as brute force finds it") {
  std::mt19937 random(1); // the same numbers everywhere: mt19937 is fixed by the standard
  int met = 0;
  int missed = 0;
  for (int i = 0; i < 3000; ++i) {
    const Box b = random_box(random);
    std::uniform_real_distribution<double> place(-30, 30);
    const Point from{place(random) * mm, place(random) * mm, place(random) * mm};
    const Point to{place(random) * mm, place(random) * mm, place(random) * mm};
    double deepest = -1e9;
    for (int s = 0; s <= 4000; ++s) {
      const Point d = to - from;
      const double t = s / 4000.0;
      deepest = std::max(deepest, depth_in(b, from + Point{d.x * t, d.y * t, d.z * t}));
    }
    const std::size_t only[] = {0};
    const bool hit = Boxes({&b, 1}, only).first_hit(from, to).has_value();
    if (deepest > 0.0) {
      CHECK(hit);
      ++met;
    }
    if (deepest < -0.02) { // samples lie 0.01 mm apart or a little more
      CHECK_FALSE(hit);
      ++missed;
    }
  }
  CHECK(met > 100);
  CHECK(missed > 300);
}

TEST_CASE("the first box of the order is named, also past the eighth") {
  std::vector<Box> row;
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < 20; ++i) {
    Box b;
    b.middle = {static_cast<double>(i) * 10.0 * mm, Length{}, Length{}};
    b.axes = {Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}};
    b.half = {1.0 * mm, 1.0 * mm, 1.0 * mm};
    row.push_back(b);
    order.push_back(i);
  }
  const Boxes boxes(row, order);
  for (std::size_t i = 0; i < 20; ++i) {
    const Length x = row[i].middle.x;
    CHECK(boxes.first_hit({x, -5.0 * mm, Length{}}, {x, 5.0 * mm, Length{}}) == i);
    CHECK_FALSE(
        boxes.first_hit({x + 5.0 * mm, -5.0 * mm, Length{}}, {x + 5.0 * mm, 5.0 * mm, Length{}}));
  }
  CHECK(boxes.first_hit({-5.0 * mm, Length{}, Length{}}, {500.0 * mm, Length{}, Length{}}) == 0);
  CHECK_FALSE(Boxes({}, {}).first_hit({}, {1.0 * mm, Length{}, Length{}}));
}

TEST_CASE("the answers do not depend on how wide the machine works") {
  const Mouth mouth = make_mouth({.right = firm(), .left = light()});
  std::vector<std::size_t> all(mouth.boxes.size());
  for (std::size_t i = 0; i < all.size(); ++i)
    all[i] = i;
  const Boxes boxes(mouth.boxes, all);
  std::mt19937 random(4);
  std::uniform_real_distribution<double> near(-45, 45);
  std::uniform_real_distribution<double> far(-300, 300);
  int met = 0;
  for (int i = 0; i < 20000; ++i) {
    const Point from{near(random) * mm, near(random) * mm, near(random) * mm};
    const Point to{far(random) * mm, far(random) * mm, far(random) * mm};
    const auto hit = boxes.first_hit(from, to);
    CHECK(hit == boxes.first_hit(from, to, Width::four));
    met += hit ? 1 : 0;
  }
  CHECK(met > 2000);
}

TEST_CASE("culling never loses a body that a way meets") {
  std::mt19937 random(2);
  int met = 0;
  int culled = 0;
  for (int i = 0; i < 4000; ++i) {
    const Box b = random_box(random);
    std::uniform_real_distribution<double> place(-60, 60);
    std::uniform_real_distribution<double> size(0, 25);
    std::uniform_real_distribution<double> unit_range(-1, 1);
    const Ball from{{place(random) * mm, place(random) * mm, place(random) * mm},
                    size(random) * mm};
    const Ball to{{place(random) * mm, place(random) * mm, place(random) * mm}, size(random) * mm};
    const bool kept = Between(from, to).may_meet({b.middle, b.radius()});
    culled += kept ? 0 : 1;
    for (int k = 0; k < 20; ++k) {
      const auto inside = [&](const Ball& ball) {
        Vec v{unit_range(random), unit_range(random), unit_range(random)};
        if (norm(v) > 1) v = unit(v);
        return ball.middle + v * ball.radius;
      };
      const std::size_t only[] = {0};
      if (!Boxes({&b, 1}, only).first_hit(inside(from), inside(to))) continue;
      ++met;
      CHECK(kept);
    }
  }
  CHECK(met > 500);
  CHECK(culled > 500);
}

TEST_CASE("a cheek hides what the closed form says it hides") {
  const MouthCorner corner = firm();
  const Mouth mouth = make_mouth({.right = corner});
  std::vector<std::size_t> cheeks;
  for (std::size_t i = 0; i < mouth.boxes.size(); ++i) {
    if (mouth.boxes[i].body == Body::cheek) cheeks.push_back(i);
  }
  REQUIRE(cheeks.size() == 1);
  const Boxes wall(mouth.boxes, cheeks);
  for (const double azimuth : {30.0, 45.0, 60.0, 75.0}) {
    const Point source{-300.0 * sin(azimuth * degree) * mm, -300.0 * cos(azimuth * degree) * mm,
                       Length{}};
    const Length teeth = 28.0 * mm;
    const auto back = reach(corner, teeth, source);
    REQUIRE(back);
    CHECK_FALSE(wall.first_hit({-teeth, *back - 0.05 * mm, Length{}}, source));
    CHECK(wall.first_hit({-teeth, *back + 0.05 * mm, Length{}}, source));
  }
}

TEST_CASE("a way by the mirror obeys the law of reflection") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> place(-40, 40);
  for (int i = 0; i < 200; ++i) {
    const Vec n = unit({place(random), place(random), place(random)});
    const Point on{place(random) * mm, place(random) * mm, place(random) * mm};
    const auto vec = [](Point p) { return Vec{p.x.in(mm), p.y.in(mm), p.z.in(mm)}; };
    Point a{place(random) * mm, place(random) * mm, place(random) * mm};
    Point b{place(random) * mm, place(random) * mm, place(random) * mm};
    // Both on the side that reflects.
    if (along(a - on, n) < Length{}) a = reflected(a, on, n);
    if (along(b - on, n) < Length{}) b = reflected(b, on, n);
    const Point image = reflected(b, on, n);
    const double share = along(a - on, n) / (along(a - on, n) - along(image - on, n));
    const Point d = image - a;
    const Point q = a + Point{d.x * share, d.y * share, d.z * share};
    CHECK(norm(vec(q - a)) + norm(vec(b - q)) == doctest::Approx(norm(vec(image - a))));
    CHECK(dot(unit(vec(a - q)), n) == doctest::Approx(dot(unit(vec(b - q)), n)));
  }
}

TEST_CASE("a mirror's outline: wide at one end, narrow at the other, or round") {
  const PlaneMirror m{{}, {0, 0, 1}, {1, 0, 0}, {0, 1, 0}, 60.0 * mm, 40.0 * mm, 100.0 * mm};
  CHECK(m.holds({29.0 * mm, -49.9 * mm, Length{}}));
  CHECK_FALSE(m.holds({29.0 * mm, 49.0 * mm, Length{}}));
  CHECK(m.holds({19.0 * mm, 49.9 * mm, Length{}}));
  CHECK(m.holds({24.9 * mm, Length{}, Length{}}));
  CHECK_FALSE(m.holds({25.1 * mm, Length{}, Length{}}));
  CHECK_FALSE(m.holds({Length{}, 50.1 * mm, Length{}}));
  PlaneMirror disc = m;
  disc.narrow_end = disc.length = disc.width;
  disc.corner = 0.5 * disc.width;
  CHECK(disc.holds({29.9 * mm, Length{}, Length{}}));
  CHECK_FALSE(disc.holds({22.0 * mm, 22.0 * mm, Length{}}));
  CHECK(disc.holds({21.0 * mm, 21.0 * mm, Length{}}));
  PlaneMirror rounded = m;
  rounded.narrow_end = rounded.width;
  rounded.corner = 10.0 * mm;
  // The corner's circle has its middle 20 mm to the side and 40 mm along.
  CHECK(rounded.holds({(20.0 + 7.0) * mm, (40.0 + 7.0) * mm, Length{}}));
  CHECK_FALSE(rounded.holds({(20.0 + 7.2) * mm, (40.0 + 7.2) * mm, Length{}}));
  CHECK(rounded.holds({29.9 * mm, 39.9 * mm, Length{}}));
  CHECK(rounded.holds({19.9 * mm, 49.9 * mm, Length{}}));
}

TEST_CASE("a mirror square to the lens shows a lamp beside it, half as far aside") {
  // Lens at the origin, looking back along y; the mirror 100 mm away, square to it.
  Eye eye;
  eye.mirror = PlaneMirror{{Length{}, 100.0 * mm, Length{}},
                           {0, -1, 0},
                           {1, 0, 0},
                           {0, 0, 1},
                           60.0 * mm,
                           60.0 * mm,
                           60.0 * mm};
  const Axes camera = camera_axes(Angle{}, Angle{}, Angle{});
  eye.pupil = Point{};
  eye.lens.pupil = reflected(eye.pupil, eye.mirror->middle, eye.mirror->normal);
  eye.lens.axes = in_mirror(camera, eye.mirror->normal);
  eye.lens.ratio = Magnification{0.5};
  eye.lens.focus_distance = 200.0 * mm;
  eye.sensor = {36.0 * mm, 24.0 * mm};
  const std::vector<Point> lamp{{30.0 * mm, Length{}, Length{}}};
  const auto at = lamp_in_mirror(Mouth{}, eye, lamp);
  REQUIRE(at);
  CHECK(at->x.in(mm) == doctest::Approx(15));
  CHECK(at->y.in(mm) == doctest::Approx(100));
  CHECK(at->z.in(mm) == doctest::Approx(0));
  SUBCASE("not beside its edge") {
    eye.mirror->width = eye.mirror->narrow_end = 29.0 * mm;
    CHECK_FALSE(lamp_in_mirror(Mouth{}, eye, lamp));
    eye.mirror->width = eye.mirror->narrow_end = 31.0 * mm;
    CHECK(lamp_in_mirror(Mouth{}, eye, lamp));
  }
  SUBCASE("not outside of the frame") {
    // Half as far as the focus plane: 15 mm there is 15 mm on the sensor at 1:2.
    eye.sensor.width = 29.0 * mm;
    CHECK_FALSE(lamp_in_mirror(Mouth{}, eye, lamp));
    eye.sensor.width = 31.0 * mm;
    CHECK(lamp_in_mirror(Mouth{}, eye, lamp));
  }
  SUBCASE("not where something stands between") {
    Mouth mouth;
    Box tooth;
    tooth.axes = {Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}};
    tooth.half = {2.0 * mm, 2.0 * mm, 2.0 * mm};
    tooth.middle = {22.5 * mm, 50.0 * mm, Length{}}; // on the lamp's way
    mouth.boxes = {tooth};
    CHECK_FALSE(lamp_in_mirror(mouth, eye, lamp));
    mouth.boxes[0].middle = {7.5 * mm, 50.0 * mm, Length{}}; // on the lens's
    CHECK_FALSE(lamp_in_mirror(mouth, eye, lamp));
    mouth.boxes[0].middle = {15.0 * mm, 50.0 * mm, Length{}};
    CHECK(lamp_in_mirror(mouth, eye, lamp));
  }
  SUBCASE("not without a mirror, nor from behind it") {
    CHECK_FALSE(lamp_in_mirror(Mouth{}, eye, std::vector<Point>{{Length{}, 150.0 * mm, Length{}}}));
    eye.mirror.reset();
    CHECK_FALSE(lamp_in_mirror(Mouth{}, eye, lamp));
  }
}

TEST_CASE("nothing comes back from behind a mirror, nor to a camera behind it") {
  const Mouth mouth = make_mouth({});
  Eye eye = camera(Angle{}, at_tooth(mouth, 11));
  // The mirror stands behind the camera's back: teeth and camera on the same side, looked away.
  eye.mirror = PlaneMirror{{Length{}, 20.0 * mm, Length{}},
                           {0, 1, 0},
                           {1, 0, 0},
                           {0, 0, 1},
                           200.0 * mm,
                           200.0 * mm,
                           200.0 * mm};
  for (const Shown& s : look(mouth, eye, nullptr, facial({11, 21}))) {
    CHECK(s.seen == 0);
    CHECK(s.hider == Hider::turned_from_mirror);
  }
}

TEST_CASE("left and right mirrored: the same numbers") {
  const Mouth mouth = make_mouth({.right = firm(), .left = light()});
  const Mouth mirrored = make_mouth({.right = light(), .left = firm()});
  const Eye eye = camera(60.0 * degree, at_tooth(mouth, 14));
  const Eye other = camera(-60.0 * degree, at_tooth(mirrored, 24));
  const Lamp lamp{{eye.pupil + eye.lens.axes.right * (60.0 * mm)}};
  const Lamp other_lamp{{other.pupil - other.lens.axes.right * (60.0 * mm)}};
  const auto here = look(mouth, eye, &lamp, facial({12, 13, 14, 15, 16, 17, 45, 46}));
  const auto there = look(mirrored, other, &other_lamp, facial({22, 23, 24, 25, 26, 27, 35, 36}));
  REQUIRE(here.size() == there.size());
  for (std::size_t i = 0; i < here.size(); ++i) {
    CAPTURE(here[i].tooth.iso());
    CHECK(here[i].seen == there[i].seen);
    CHECK(here[i].framed == there[i].framed);
    CHECK(here[i].lit == there[i].lit);
    CHECK(here[i].obliquity.in(degree) == doctest::Approx(there[i].obliquity.in(degree)));
    CHECK(here[i].light == doctest::Approx(there[i].light));
  }
}

TEST_CASE("pulling the cheek harder never hides a tooth") {
  double before = 0;
  for (int step = 0; step <= 10; ++step) {
    const MouthCorner corner{(30.0 + step) * mm, (12.0 + 2.0 * step) * mm};
    const double seen =
        sum_of(side_view(corner, nullptr, {13, 14, 15, 16, 17, 45, 46, 47}), &Shown::seen);
    CHECK(seen >= before);
    before = seen;
  }
  // Common practice, no source: more pull on the retractor shows teeth further back.
  CHECK(before >
        sum_of(side_view(light(), nullptr, {13, 14, 15, 16, 17, 45, 46, 47}), &Shown::seen));
}

TEST_CASE(
    "a point light on the cheek's side shadows the back teeth; on the front side it does not") {
  // Common practice, no source. The teeth are those the lens sees.
  const std::initializer_list<int> teeth{13, 14, 15, 16};
  const auto lit = [&](double offset, double away) {
    const Lamp lamp = point_lamp(offset * mm, away * mm);
    double light = 0;
    for (const Shown& s : side_view(firm(), &lamp, teeth))
      light += s.seen * s.lit;
    return light;
  };
  CHECK(lit(-70, 275) < lit(70, 275));
  // The worse the larger its offset, and the closer it is.
  CHECK(lit(-100, 275) <= lit(-70, 275));
  CHECK(lit(-70, 275) <= lit(-30, 275));
  CHECK(lit(-70, 150) <= lit(-70, 275));
}

TEST_CASE("opening the mouth further never hides a tooth") {
  double before = 0;
  for (double opening = 30; opening <= 66; opening += 3) {
    ByMirror v = upper_by_mirror(60.0 * mm, 45.0 * degree);
    v.mouth = make_mouth({.of_upper = true, .opened = jaw_open(opening * mm)});
    const double seen = sum_of(look(v.mouth, v.eye, nullptr, v.wanted), &Shown::seen);
    CHECK(seen >= before);
    before = seen;
  }
  CHECK(before > 6.0); // seven teeth
}

TEST_CASE("a sheet runs into bodies near its plane as it would into all of them") {
  const Mouth mouth = make_mouth({.opened = jaw_open(44.3 * mm)});
  const Boxes all(mouth.boxes);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> turn(-90, 90);
  std::uniform_real_distribution<double> place(-40, 40);
  int met = 0;
  constexpr int tries = 400;
  for (int i = 0; i < tries; ++i) {
    const Axes axes = camera_axes(turn(random) * degree, turn(random) * degree, Angle{});
    PlaneMirror m;
    m.normal = axes.forward;
    m.along = axes.up;
    m.across = axes.right;
    m.width = m.narrow_end = 20.0 * mm;
    m.length = 40.0 * mm;
    m.middle = {place(random) * mm, (20 + place(random)) * mm, place(random) * mm};
    bool hit = false;
    for (int line = 0; line <= 40 && !hit; ++line) {
      const Point on = m.middle + m.along * ((line / 40.0 - 0.5) * m.length);
      hit = all.first_hit(on - m.across * (0.5 * m.width), on + m.across * (0.5 * m.width))
                .has_value();
    }
    CHECK(runs_into(m, mouth.boxes) == hit);
    met += hit ? 1 : 0;
  }
  CHECK(met > tries / 10);
  CHECK(met < tries * 9 / 10);
}

TEST_CASE("grids of teeth at rest are the anatomy's; of teeth that were moved there are none") {
  Mouth mouth = make_mouth({.of_upper = true, .opened = jaw_open(44.3 * mm)});
  for (const Crown& c : mouth.crowns) {
    const auto known = mouth.grid_at_rest(c, Surface::facial, 5);
    CHECK(known.empty() != c.tooth.is_upper());
    CHECK(mouth.grid_at_rest(c, Surface::facial, 7).empty());
    const auto anew = surface_grid(c, Surface::facial, 5);
    for (std::size_t i = 0; i < known.size(); ++i) {
      CHECK(known[i].at == anew[i].at);
      CHECK(known[i].normal == anew[i].normal);
    }
  }
  mouth.crowns.front().size.height = 20.0 * mm;
  CHECK(mouth.grid_at_rest(mouth.crowns.front(), Surface::facial, 5).empty());
}

TEST_CASE("everything twice as large: lengths double, angles and shares stay") {
  const Mouth mouth = make_mouth({.right = firm(), .left = light()});
  Mouth large = mouth;
  const auto twice = [](Point p) { return Point{2.0 * p.x, 2.0 * p.y, 2.0 * p.z}; };
  for (Crown& c : large.crowns) {
    c.edge = twice(c.edge);
    CrownSize& s = c.size;
    for (Length* l : {&s.height, &s.width, &s.width_at_neck, &s.depth, &s.depth_at_neck})
      *l = 2.0 * *l;
    c.shape.edge_depth = 2.0 * c.shape.edge_depth;
  }
  for (Box& b : large.boxes) {
    b.middle = twice(b.middle);
    for (Length& half : b.half)
      half = 2.0 * half;
  }
  const Eye eye = camera(60.0 * degree, at_tooth(mouth, 14));
  Eye far = eye;
  far.pupil = twice(eye.pupil);
  far.lens.pupil = twice(eye.lens.pupil);
  far.lens.focus_distance = 2.0 * eye.lens.focus_distance;
  far.lens.ratio = Magnification{0.5 * eye.lens.ratio.value()};
  const Lamp lamp{{eye.pupil + eye.lens.axes.right * (60.0 * mm)}};
  const Lamp far_lamp{{twice(lamp.points.front())}};
  // Without 43, whose face 13 just grazes: there the lift of 0.02 mm counts.
  const auto teeth = facial({11, 12, 13, 14, 15, 16, 17, 41, 44, 45, 46, 47});
  const auto here = look(mouth, eye, &lamp, teeth);
  const auto there = look(large, far, &far_lamp, teeth);
  REQUIRE(here.size() == there.size());
  for (std::size_t i = 0; i < here.size(); ++i) {
    CAPTURE(here[i].tooth.iso());
    CHECK(here[i].seen == there[i].seen);
    CHECK(here[i].lit == there[i].lit);
    CHECK(here[i].framed == there[i].framed);
    // Ways start 0.02 mm off a face, whatever its size.
    CHECK(here[i].obliquity.in(degree) ==
          doctest::Approx(there[i].obliquity.in(degree)).epsilon(5e-4));
    CHECK(here[i].light == doctest::Approx(4.0 * there[i].light).epsilon(1e-3));
  }
}

TEST_CASE("the record's views: what is seen of each tooth") {
  // Worked out by this model and looked at; the side view's limit is the closed form's (33.5 mm).
  const auto side = side_view(firm(), nullptr, {12, 13, 14, 15, 16, 17});
  for (std::size_t i = 0; i + 1 < side.size(); ++i) {
    CHECK(side[i].seen > 0.95);
    CHECK(side[i].framed == 1.0);
  }
  CHECK(side.back().seen < defaults::shown_share.value);
  CHECK(side.back().hider == Hider::cheek);

  const Mouth mouth = make_mouth({.right = light(), .left = light()});
  const auto front = look(mouth, camera(Angle{}, at_tooth(mouth, 11)), nullptr,
                          facial({11, 12, 13, 14, 15, 16}), fine_pieces);
  Angle before;
  for (const Shown& s : front) {
    CHECK(s.obliquity > before); // the farther back, the farther turned away
    before = s.obliquity;
  }
  CHECK(front[0].seen == 1.0);
  CHECK(front[4].seen < front[4].facing);
  CHECK(front[4].hider_tooth == Tooth::from_iso(14));
}

namespace {

/// Share of a surface's points that are seen, by the mirror or directly, held against every box one
/// by one: the same question without culling or packing.
double seen_one_by_one(const Mouth& mouth, const Eye& eye, const Wanted& wanted) {
  const Crown& crown = *find_crown(mouth.crowns, wanted.tooth);
  const auto free = [&](Point from, Point to, bool without_own) {
    for (const Box& b : mouth.boxes) {
      const bool own = (b.body == Body::crown || b.body == Body::gum) && b.tooth == wanted.tooth;
      if (own && without_own) continue;
      const std::size_t only[] = {0};
      if (Boxes({&b, 1}, only).first_hit(from, to)) return false;
    }
    return true;
  };
  double seen = 0;
  for (const SurfacePiece& p : surface_pieces(crown, wanted.surface)) {
    const Point from = p.at + p.normal * (0.02 * mm);
    const Point to = eye.lens.pupil;
    const Point d = to - from;
    if (along(d, p.normal) <= Length{}) continue;
    if (!eye.mirror) {
      seen += free(from, to, true) ? p.share : 0;
      continue;
    }
    const PlaneMirror& m = *eye.mirror;
    const double share = along(from - m.middle, m.normal) / (Length{} - along(d, m.normal));
    const Point on = from + Point{d.x * share, d.y * share, d.z * share};
    const bool by_mirror = share > 0 && share < 1 && m.holds(on);
    seen += by_mirror && free(from, on, true) && free(on, eye.pupil, false) ? p.share : 0;
  }
  return seen;
}

} // namespace

TEST_CASE("what is seen, with culling and without") {
  const Mouth mouth = make_mouth({.right = firm(), .left = light()});
  for (const double azimuth : {0.0, 30.0, 60.0, 80.0}) {
    const Eye eye = camera(azimuth * degree, at_tooth(mouth, 14));
    for (const Shown& s :
         look(mouth, eye, nullptr, facial({11, 13, 14, 15, 16, 17, 41, 44, 46, 47, 25})))
      CHECK(s.seen == doctest::Approx(seen_one_by_one(mouth, eye, {s.tooth, s.surface})));
  }
  for (const double opened : {25.0, 30.0, 35.0, 40.0, 45.0, 60.0}) {
    CAPTURE(opened);
    const ByMirror v = upper_by_mirror(50.0 * mm, opened * degree);
    for (const Shown& s : look(v.mouth, v.eye, nullptr, v.wanted))
      CHECK(s.seen == doctest::Approx(seen_one_by_one(v.mouth, v.eye, {s.tooth, s.surface})));
  }
}

namespace {

/// Shares of a surface's area by 101 x 101 cells between the points of its grid, each with its
/// middle, its area and its normal by its corners; ways held against all boxes.
struct Fine {
  double framed = 0;
  double facing = 0;
  double seen = 0;
  double lit = 0; // of what is seen, by a lamp of one point
  double apparent = 0;
  double turned_from_lamp = 0; // of what is seen
  double blocked = 0;          // the same
};
Fine fine(const Mouth& mouth, const Eye& eye, const Wanted& wanted,
          std::optional<Point> lamp = {}) {
  constexpr std::size_t n = 102;
  const Crown& crown = *find_crown(mouth.crowns, wanted.tooth);
  const auto grid = surface_grid(crown, wanted.surface, static_cast<int>(n));
  std::vector<std::size_t> others;
  for (std::size_t i = 0; i < mouth.boxes.size(); ++i) {
    const Box& b = mouth.boxes[i];
    const bool own = (b.body == Body::crown || b.body == Body::gum) && b.tooth == wanted.tooth;
    if (!own) others.push_back(i);
  }
  const Boxes first(mouth.boxes, others);
  const Boxes all(mouth.boxes);
  const auto reaches = [&](Point from, Point place, Point image) {
    if (!eye.mirror) return !first.first_hit(from, place);
    const PlaneMirror& m = *eye.mirror;
    const Point d = image - from;
    const double share = along(from - m.middle, m.normal) / (Length{} - along(d, m.normal));
    const Point on = from + Point{d.x * share, d.y * share, d.z * share};
    return share > 0 && share < 1 && m.holds(on) && !first.first_hit(from, on) &&
           !all.first_hit(on, place);
  };
  Fine out;
  double whole = 0;
  for (std::size_t i = 0; i + 1 < n; ++i) {
    for (std::size_t j = 0; j + 1 < n; ++j) {
      const Point& p = grid[i * n + j].at;
      const Point& q = grid[(i + 1) * n + j].at;
      const Point& r = grid[(i + 1) * n + j + 1].at;
      const Point& t = grid[i * n + j + 1].at;
      const Vec across = cross(direction(p, r), direction(q, t));
      const double area = 0.5 * norm(across);
      if (area < 1e-9) continue;
      Vec normal = unit(across);
      if (dot(normal, grid[i * n + j].normal) < 0) normal = -normal;
      const Point middle{(p.x + q.x + r.x + t.x) / 4.0, (p.y + q.y + r.y + t.y) / 4.0,
                         (p.z + q.z + r.z + t.z) / 4.0};
      const Point from = middle + normal * (0.02 * mm);
      whole += area;
      const auto at = project(middle, eye.lens);
      if (at && abs(at->right) <= 0.5 * eye.sensor.width && abs(at->up) <= 0.5 * eye.sensor.height)
        out.framed += area;
      const double facing = dot(normal, unit(direction(from, eye.lens.pupil)));
      if (facing <= 0) continue;
      out.apparent += area * facing;
      out.facing += area;
      if (!reaches(from, eye.pupil, eye.lens.pupil)) continue;
      out.seen += area;
      if (!lamp) continue;
      const Point image =
          eye.mirror ? reflected(*lamp, eye.mirror->middle, eye.mirror->normal) : *lamp;
      if (dot(normal, direction(from, image)) <= 0) {
        out.turned_from_lamp += area;
      } else if (!reaches(from, *lamp, image)) {
        out.blocked += area;
      } else {
        out.lit += area;
      }
    }
  }
  if (out.seen > 0) {
    out.lit /= out.seen;
    out.turned_from_lamp /= out.seen;
    out.blocked /= out.seen;
  }
  for (double* share : {&out.framed, &out.facing, &out.seen, &out.apparent})
    *share /= whole;
  return out;
}

void check_against_fine(const Mouth& mouth, const Eye& eye, std::span<const Wanted> wanted,
                        std::optional<Point> lamp = {}) {
  constexpr double within = 0.02;
  Lamp light;
  if (lamp) light.points = {*lamp};
  for (const Shown& s : look(mouth, eye, lamp ? &light : nullptr, wanted, fine_pieces)) {
    CAPTURE(s.tooth.iso());
    const Fine f = fine(mouth, eye, {s.tooth, s.surface}, lamp);
    CHECK(std::abs(s.framed - f.framed) < within);
    CHECK(std::abs(s.facing - f.facing) < within);
    CHECK(std::abs(s.seen - f.seen) < within);
    // Of what is seen: a share of a share.
    if (lamp) CHECK(std::abs(s.lit - f.lit) * s.seen < within);
  }
}

} // namespace

TEST_CASE("shares of a surface's area, against 101 x 101 cells") {
  const Mouth mouth = make_mouth({.right = firm(), .left = light()});
  const auto teeth = facial({11, 12, 13, 14, 15, 16, 17, 25, 41, 42, 43, 44, 45, 46, 47});
  for (const double azimuth : {0.0, 20.0, 45.0, 60.0, 80.0}) {
    CAPTURE(azimuth);
    const Eye eye = camera(azimuth * degree, at_tooth(mouth, 14));
    check_against_fine(mouth, eye, teeth, eye.pupil - eye.lens.axes.right * (60.0 * mm));
  }
  for (const double opened : {30.0, 45.0, 60.0}) {
    CAPTURE(opened);
    const ByMirror v = upper_by_mirror(44.0 * mm, opened * degree);
    check_against_fine(v.mouth, v.eye, v.wanted);
  }
}

TEST_CASE("pieces of a surface: their normals are the grid's, their shares its area") {
  for (const int iso : {11, 13, 16, 26, 31, 36, 44}) {
    const Tooth tooth = *Tooth::from_iso(iso);
    const Crown& crown = *find_crown(adult_arch(tooth.is_upper()), tooth);
    for (const Surface surface : {Surface::facial, Surface::biting, Surface::lingual}) {
      const auto grid = surface_grid(crown, surface, 401);
      double sum = 0;
      for (const SurfacePiece& piece : surface_pieces(crown, surface)) {
        sum += piece.share;
        const auto next = std::min_element(
            grid.begin(), grid.end(), [&](const SurfacePoint& a, const SurfacePoint& b) {
              return norm(direction(a.at, piece.at)) < norm(direction(b.at, piece.at));
            });
        CHECK(norm(direction(next->at, piece.at)) < 0.03);
        CHECK(dot(next->normal, piece.normal) > 0.999);
      }
      CHECK(sum == doctest::Approx(1.0));
    }
  }
}

TEST_CASE("turned by: against the face as it is seen squarely") {
  const Mouth mouth = make_mouth({});
  for (const double azimuth : {0.0, 30.0, 45.0, 60.0}) {
    const Eye eye = camera(azimuth * degree, at_tooth(mouth, 14));
    for (const Shown& s : look(mouth, eye, nullptr, facial({11, 13, 14, 16}), fine_pieces)) {
      CAPTURE(azimuth);
      CAPTURE(s.tooth.iso());
      // Squarely, from 100 m in the direction of its mean normal, as 101 x 101 cells have it.
      const Crown& crown = *find_crown(mouth.crowns, s.tooth);
      Vec mean;
      for (const SurfacePiece& piece : surface_pieces(crown, Surface::facial, 377))
        mean = mean + piece.normal * piece.share;
      Eye square = eye;
      square.pupil = square.lens.pupil = crown.edge + unit(mean) * (1e5 * mm);
      const double share = fine(mouth, eye, {s.tooth, s.surface}).apparent /
                           fine(mouth, square, {s.tooth, s.surface}).apparent;
      CHECK(std::abs(std::cos(s.obliquity.in(degree)*0.017453292519943295) - share) < 0.015);
    }
    // A flat one is turned by the angle between its normal and the way to the lens.
    for (const Shown& s :
         look(mouth, eye, nullptr, std::vector<Wanted>{{*Tooth::from_iso(36), Surface::biting}})) {
      const Crown& crown = *find_crown(mouth.crowns, s.tooth);
      const double cosine = dot(-crown.root, unit(direction(crown.edge, eye.pupil)));
      if (cosine > 0.05)
        CHECK(std::cos(s.obliquity.in(degree)*0.017453292519943295) ==
              doctest::Approx(cosine).epsilon(0.02));
    }
  }
}

TEST_CASE("what weighs most in a shadow is named, by 101 x 101 cells") {
  const Mouth mouth = make_mouth({.right = firm(), .left = light()});
  int turned = 0;
  int blocked = 0;
  for (const double aside : {-200.0, -100.0, -60.0, 60.0, 150.0}) {
    const Eye eye = camera(60.0 * degree, at_tooth(mouth, 14));
    const Point at = eye.pupil + eye.lens.axes.right * (aside * mm);
    const Lamp lamp{{at}};
    for (const Shown& s : look(mouth, eye, &lamp, facial({11, 12, 13, 14, 15, 16, 45, 46}))) {
      const Fine f = fine(mouth, eye, {s.tooth, s.surface}, at);
      if (f.turned_from_lamp + f.blocked < 0.05 || std::abs(f.turned_from_lamp - f.blocked) < 0.05)
        continue;
      CAPTURE(aside);
      CAPTURE(s.tooth.iso());
      const bool most_turned = f.turned_from_lamp > f.blocked;
      CHECK((s.shade == Hider::turned_from_lamp) == most_turned);
      (most_turned ? turned : blocked) += 1;
    }
  }
  CHECK(turned > 0);
  CHECK(blocked > 0);
}

TEST_CASE("a mirror that is slightly too narrow loses the second molars first") {
  // Common practice, no source.
  const auto enough = arch_by_mirror(60.0 * mm, 45.0 * degree);
  for (const Shown& s : enough)
    CHECK(s.seen > 0.8);
  const auto narrow = arch_by_mirror(48.0 * mm, 45.0 * degree);
  CHECK(narrow[6].seen < 0.5);
  CHECK(narrow[6].hider == Hider::beside_mirror);
  for (std::size_t i = 0; i < 5; ++i)
    CHECK(narrow[i].seen == enough[i].seen);
  CHECK(narrow[6].seen < narrow[5].seen);
}

TEST_CASE("widening a mirror never hides a tooth") {
  double before = 0;
  for (double width = 30; width <= 80; width += 2.5) {
    const double seen = sum_of(arch_by_mirror(width * mm, 45.0 * degree), &Shown::seen);
    CHECK(seen >= before);
    before = seen;
  }
}

TEST_CASE("a mirror well below 45 degrees: the front teeth cut off the molars") {
  // Common practice, no source.
  const auto good = arch_by_mirror(70.0 * mm, 45.0 * degree);
  const auto flat = arch_by_mirror(70.0 * mm, 30.0 * degree);
  CHECK(good[6].seen > 0.8);
  CHECK(flat[6].seen == 0.0);
  CHECK(flat[5].seen < 0.5);
  CHECK(flat[0].seen == 1.0);
  CHECK(flat[6].hider == Hider::crown);
}

TEST_CASE("a mirror above 45 degrees: the mouth must open further than it can") {
  // Common practice, no source. The mirror lies over the lower arch; the greatest opening is
  // published (44.3 mm in women, 51.3 in men: PMC3428458).
  const auto needed = [](Angle opened) {
    PlaneMirror m;
    m.normal = -arch_mirror_normal(false, opened);
    m.across = {1, 0, 0};
    m.along = {0, -cos(opened), sin(opened)};
    m.width = m.narrow_end = 58.0 * mm;
    m.length = 130.0 * mm;
    m.middle = Point{Length{}, 55.0 * mm, Length{}} + m.along * (0.5 * m.length);
    Length least = 70.0 * mm;
    for (Length opening = least; opening > 10.0 * mm; opening -= 1.0 * mm) {
      const Mouth mouth = make_mouth({.of_upper = false, .opened = jaw_open(opening)});
      std::vector<Box> upper;
      for (const Box& b : mouth.boxes) {
        const bool of_jaw = b.body == Body::crown || b.body == Body::gum;
        if (of_jaw && b.tooth.is_upper()) upper.push_back(b);
      }
      if (runs_into(m, upper)) break;
      least = opening;
    }
    return least;
  };
  CHECK(needed(45.0 * degree) <= 51.3 * mm);
  CHECK(needed(60.0 * degree) > 51.3 * mm);
  CHECK(needed(30.0 * degree) < needed(45.0 * degree));
  CHECK(needed(45.0 * degree) < needed(60.0 * degree));
}

TEST_CASE("lower incisors stand partly behind the upper ones") {
  // The overbite is 2.5 mm of a crown of 9 mm that is widest there: 0.28 of its height, and a
  // little more of its area.
  const Mouth mouth = make_mouth({});
  const auto shown =
      look(mouth, camera(Angle{}, at_tooth(mouth, 11)), nullptr, facial({41, 31}), fine_pieces);
  for (const Shown& s : shown) {
    CHECK(s.seen < 0.8);
    CHECK(s.seen > 0.65);
    CHECK(std::abs(s.seen -
                   fine(mouth, camera(Angle{}, at_tooth(mouth, 11)), {s.tooth, s.surface}).seen) <
          0.04);
    CHECK(s.hider == Hider::crown);
    CHECK(s.hider_tooth->is_upper());
  }
}

TEST_CASE("a blade glints in the frame, by the law of reflection, and alike on both sides") {
  const MouthCorner corner{defaults::corner_side_even.value * mm,
                           defaults::corner_back_even.value * mm};
  const Mouth mouth = make_mouth({.right = corner, .left = corner});
  const Point aim{};
  const Eye eye = camera(Angle{}, aim);
  const Lamp lamp =
      ring_lamp(aim - eye.lens.axes.forward * (255.0 * mm), eye.lens.axes, 35.0 * mm, 16);
  const auto right = blade_glint(corner, true, mouth, eye.lens, eye.sensor, lamp.points);
  const auto left = blade_glint(corner, false, mouth, eye.lens, eye.sensor, lamp.points);
  REQUIRE(right);
  REQUIRE(left);
  CHECK(right->at.x.in(mm) == doctest::Approx(-left->at.x.in(mm)));
  CHECK(right->incidence.in(degree) == doctest::Approx(left->incidence.in(degree)));
  // The blade is a cylinder bent back: seen from ahead, the place that glints looks ahead, too.
  CHECK(abs(right->at.x) > corner.side - 5.1 * mm);
  CHECK(right->at.y < corner.back);
  // Lamp and lens stand 35 mm apart some 275 mm away: half of the angle between them.
  CHECK(right->incidence.in(degree) == doctest::Approx(3.6).epsilon(0.15));
  // At 1:1 the field ends before the corners of the mouth.
  Pinhole close = eye.lens;
  close.ratio = Magnification{1.0};
  CHECK_FALSE(blade_glint(corner, true, mouth, close, eye.sensor, lamp.points));
  // A lamp behind the mouth lights none of the blade that the lens sees.
  const std::vector<Point> behind{{Length{}, 300.0 * mm, Length{}}};
  CHECK_FALSE(blade_glint(corner, true, mouth, eye.lens, eye.sensor, behind));
}

TEST_CASE("a mirror that narrows has room beside its narrow end") {
  PlaneMirror m;
  m.middle = {Length{}, Length{}, Length{}};
  m.normal = {0, 0, 1};
  m.across = {1, 0, 0};
  m.along = {0, -1, 0}; // its narrow end lies at y = -50
  m.width = 60.0 * mm;
  m.length = 100.0 * mm;
  Box post;
  post.axes = {Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}};
  post.half = {2.0 * mm, 2.0 * mm, 10.0 * mm};
  const auto runs = [&](double narrow, double x, double y) {
    m.narrow_end = narrow * mm;
    post.middle = {x * mm, y * mm, Length{}};
    const std::vector<Box> bodies{post};
    return runs_into(m, bodies);
  };
  // Half of it is 30 mm at the wide end, 10 mm at the narrow one, 20 mm in the middle.
  CHECK(runs(60, 25, -48));
  CHECK_FALSE(runs(20, 25, -46));
  CHECK(runs(20, 25, 46));
  CHECK(runs(20, 17, 0));
  CHECK_FALSE(runs(20, 24, 0));
}

namespace {

/// The same mouth with its lips in more pieces along the same curve, or in one straight bar as wide
/// as the corners are apart.
Mouth with_lips(const MouthState& state, int pieces, bool bar) {
  Mouth mouth = make_mouth(state);
  std::erase_if(mouth.boxes, [](const Box& b) { return b.body == Body::lip; });
  constexpr double thick = 10;
  constexpr double half_high = 40;
  for (const bool upper : {true, false}) {
    const auto& arch = adult_arch(upper);
    const Crown& c =
        *std::min_element(arch.begin(), arch.end(),
                          [](const Crown& a, const Crown& b) { return a.edge.y < b.edge.y; });
    // Teeth together: roots stand upright, to within their tilt of none.
    const double up = upper ? 1 : -1;
    const double z =
        c.edge.z.in(mm) + up * (c.size.height.in(mm) + defaults::lip_clear.value + half_high);
    const double front = c.edge.y.in(mm)-0.5 * c.size.depth.in(mm)-0.5 * thick;
    for (int side = -1; side <= 1; side += 2) {
      const MouthCorner& corner = side < 0 ? *state.right : *state.left;
      const double deep = bar ? 0.0 : corner.back.in(mm)-front;
      for (int i = 0; i < pieces; ++i) {
        const auto at = [&](int step) {
          const double share = static_cast<double>(step) / pieces;
          return Vec{side * share * corner.side.in(mm), front + share * share * deep, z};
        };
        const Vec a = at(i);
        const Vec b = at(i + 1);
        const Vec along = unit(b - a);
        Vec out = unit(cross(along, Vec{0, 0, 1}));
        if (out.y > 0) out = -out;
        const Vec middle = (a + b) * 0.5 + out * (0.5 * thick);
        Box box;
        box.middle = {middle.x * mm, middle.y * mm, middle.z * mm};
        box.axes = {along, out, Vec{0, 0, 1}};
        box.half = {0.5 * norm(b - a) * mm, 0.5 * thick * mm, half_high * mm};
        box.body = Body::lip;
        mouth.boxes.push_back(box);
      }
    }
  }
  return mouth;
}

} // namespace

TEST_CASE("lips are a curve from the front teeth to the corners of the mouth") {
  const MouthState state{.right = firm(), .left = light()};
  const Mouth mouth = make_mouth(state);
  const Mouth fine_lips = with_lips(state, 60, false);
  const Mouth bars = with_lips(state, 1, true);
  // Both ends of the curve, on its inner side.
  const auto meets = [&](Point wanted) {
    return std::any_of(mouth.boxes.begin(), mouth.boxes.end(), [&](const Box& b) {
      if (b.body != Body::lip) return false;
      const Point inner = b.middle + b.axes[1] * (Length{} - b.half[1]);
      for (const double end : {-1.0, 1.0}) {
        const Point p = inner + b.axes[0] * (b.half[0] * end);
        if (abs(p.x - wanted.x) < 0.6 * mm && abs(p.y - wanted.y) < 0.6 * mm) return true;
      }
      return false;
    });
  };
  CHECK(meets({-firm().side, firm().back, Length{}}));
  CHECK(meets({light().side, light().back, Length{}}));
  // From above and below, and a lamp aside: within 0.02 of the finer curve; the straight bar throws
  // shadows that it does not.
  int bar_shadows = 0;
  const auto teeth = facial({11, 12, 13, 14, 15, 41, 42, 43, 44, 45, 23, 24});
  for (const double azimuth : {0.0, 30.0, 60.0}) {
    for (const double elevation : {-40.0, -20.0, 20.0, 40.0}) {
      const Eye eye = camera(azimuth * degree, at_tooth(mouth, 12));
      const Axes from = camera_axes(60.0 * degree, elevation * degree, Angle{});
      const Lamp lamp{{at_tooth(mouth, 13) - from.forward * (250.0 * mm)}};
      const auto here = look(mouth, eye, &lamp, teeth, fine_pieces);
      const auto there = look(fine_lips, eye, &lamp, teeth, fine_pieces);
      const auto bar = look(bars, eye, &lamp, teeth, fine_pieces);
      for (std::size_t i = 0; i < here.size(); ++i) {
        CAPTURE(here[i].tooth.iso());
        CAPTURE(azimuth);
        CAPTURE(elevation);
        CHECK(std::abs(here[i].seen - there[i].seen) < 0.02);
        CHECK(std::abs(here[i].lit - there[i].lit) * here[i].seen < 0.05);
        bar_shadows += bar[i].shade == Hider::lip && bar[i].lit < here[i].lit - 0.2 ? 1 : 0;
      }
    }
  }
  CHECK(bar_shadows > 0);
}
