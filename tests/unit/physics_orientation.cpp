// Camera axes, flips and turns, perspective.
#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "physics/extent.hpp"
#include "physics/pinhole.hpp"

namespace norma::physics {
namespace {

using doctest::Approx;

bool same(Vec a, Vec b) { return norm(a - b) < 1e-12; }
bool same(const Axes& a, const Axes& b) {
  return same(a.forward, b.forward) && same(a.right, b.right) && same(a.up, b.up);
}

} // namespace

TEST_CASE("axes are a right-handed frame wherever the camera stands") {
  for (const double azimuth : {-90.0, -20.0, 0.0, 60.0}) {
    for (const double elevation : {-80.0, 0.0, 35.0}) {
      for (const double roll : {0.0, 30.0, 180.0}) {
        const Axes a = camera_axes(azimuth * degree, elevation * degree, roll * degree);
        CHECK(same(cross(a.forward, a.up), a.right));
        CHECK(norm(a.up) == Approx(1));
        CHECK_FALSE(a.mirrored());
      }
    }
  }
}

TEST_CASE(
    "straight ahead the patient's left is at the picture's right; from the right the front is") {
  CHECK(same(camera_axes(Angle{}, Angle{}, Angle{}).right, {1, 0, 0}));
  CHECK(same(camera_axes(90.0 * degree, Angle{}, Angle{}).right, {0, -1, 0}));
  // The camera stands on the patient's right and looks to the left.
  CHECK(same(camera_axes(90.0 * degree, Angle{}, Angle{}).forward, {1, 0, 0}));
}

TEST_CASE("upside down, left and right as well as top and bottom change over") {
  const Axes up = camera_axes(20.0 * degree, 10.0 * degree, Angle{});
  const Axes over = camera_axes(20.0 * degree, 10.0 * degree, 180.0 * degree);
  CHECK(same(over.right, -up.right));
  CHECK(same(over.up, -up.up));
}

TEST_CASE("left and right views are each other's image in the midline") {
  const Axes r = camera_axes(50.0 * degree, 10.0 * degree, Angle{});
  const Axes l = camera_axes(-50.0 * degree, 10.0 * degree, Angle{});
  CHECK(same(l.forward, {-r.forward.x, r.forward.y, r.forward.z}));
  // A picture of the other side has its right where this one has its left.
  CHECK(same(l.right, {r.right.x, -r.right.y, -r.right.z}));
  CHECK(same(l.up, {-r.up.x, r.up.y, r.up.z}));
}

TEST_CASE("flips undo themselves, four quarters are none, a mirror changes the hand") {
  const Axes a = camera_axes(33.0 * degree, -12.0 * degree, 7.0 * degree);
  for (const Turn t : {Turn::flip_sideways, Turn::flip_upside_down, Turn::half_turn}) {
    CHECK(same(turned(turned(a, t), t), a));
  }
  Axes quarter = a;
  for (int i = 0; i < 4; ++i)
    quarter = turned(quarter, Turn::quarter_left);
  CHECK(same(quarter, a));
  CHECK(same(turned(turned(a, Turn::quarter_left), Turn::quarter_right), a));
  CHECK(turned(a, Turn::flip_sideways).mirrored());
  CHECK(turned(a, Turn::flip_and_quarter_left).mirrored());
  CHECK_FALSE(turned(a, Turn::half_turn).mirrored());
  CHECK(in_mirror(a, unit({1, 2, 3})).mirrored());
}

TEST_CASE("the eight turns are eight different pictures") {
  const Axes a = camera_axes(Angle{}, Angle{}, Angle{});
  for (std::size_t i = 0; i < all_turns.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      CHECK_FALSE(same(turned(a, all_turns[i]), turned(a, all_turns[j])));
    }
  }
}

TEST_CASE(
    "a direct picture needs no turn; a side view cannot have the back teeth at its front's edge") {
  const Axes right = camera_axes(60.0 * degree, Angle{}, Angle{});
  CHECK(turn_for(right, std::nullopt) == Turn::none);
  CHECK(turn_for(right, Wish{{0, -1, 0}, PictureEdge::right}) == Turn::none);
  CHECK_FALSE(turn_for(right, Wish{{0, -1, 0}, PictureEdge::left}));
}

TEST_CASE("letters and their directions") {
  for (const char letter : {'L', 'R', 'P', 'A', 'H', 'F'}) {
    const Vec v = *direction_of(letter);
    Axes a;
    a.right = v;
    a.up = -v;
    CHECK(orientation(a) == Orientation{letter, letter});
  }
  CHECK_FALSE(direction_of('X'));
  CHECK(to_text(Orientation{'A', 'F'}) == "A\\F");
}

TEST_CASE("extents: scaling, sides, and what lies nearer looks larger") {
  const Axes front = camera_axes(Angle{}, Angle{}, Angle{});
  const std::array points{SurfacePoint{{10.0 * mm, -5.0 * mm, 2.0 * mm}, {0, -1, 0}},
                          SurfacePoint{{-4.0 * mm, 20.0 * mm, -3.0 * mm}, {0, -1, 0}}};
  const auto flat = extent_of(points, Point{}, front, std::nullopt);
  REQUIRE(flat);
  CHECK(flat->right.in(mm) == Approx(10));
  CHECK(flat->left.in(mm) == Approx(4));
  CHECK(flat->up.in(mm) == Approx(2));
  CHECK(flat->down.in(mm) == Approx(3));
  CHECK(flat->towards.in(mm) == Approx(5));
  CHECK(flat->away.in(mm) == Approx(20));
  const auto near = extent_of(points, Point{}, front, 200.0 * mm);
  CHECK(near->right.in(mm) == Approx(10.0 * 200 / 195));
  CHECK(near->left.in(mm) == Approx(4.0 * 200 / 220));
  CHECK_FALSE(extent_of({}, Point{}, front, std::nullopt));
}

TEST_CASE("points on one side of the aim have a negative extent to the other") {
  const Axes front = camera_axes(Angle{}, Angle{}, Angle{});
  const std::array points{SurfacePoint{{10.0 * mm, Length{}, Length{}}, {0, -1, 0}}};
  CHECK(extent_of(points, Point{}, front, std::nullopt)->left.in(mm) == Approx(-10));
}

TEST_CASE("perspective: in the focus plane the ratio, behind it less, behind the pupil nothing") {
  const Axes axes = camera_axes(Angle{}, Angle{}, Angle{});
  const Length focus = 300.0 * mm;
  const Pinhole camera{Point{} - axes.forward * focus, axes, Magnification{0.5}, focus};
  const auto at = [&](double x, double y, double z) {
    return project({x * mm, y * mm, z * mm}, camera);
  };
  CHECK(at(0, 0, 0)->right == Length{});
  CHECK(at(10, 0, 6)->right.in(mm) == Approx(5));
  CHECK(at(10, 0, 6)->up.in(mm) == Approx(3));
  CHECK(at(10, 300, 0)->right.in(mm) == Approx(2.5));
  CHECK_FALSE(at(10, -300, 0));
  CHECK_FALSE(at(10, -400, 0));
}

TEST_CASE(
    "perspective in a mirror: the image camera sees the tooth where the camera sees its image") {
  const Axes axes = camera_axes(5.0 * degree, 3.0 * degree, Angle{});
  const Vec normal = arch_mirror_normal(true, 43.0 * degree);
  const Point on{Length{}, 45.0 * mm, Length{}};
  const Length focus = 300.0 * mm;
  const auto image_of = [&](Point p) { return p - normal * (2.0 * along(p - on, normal)); };
  const Point tooth{12.0 * mm, 20.0 * mm, Length{}};
  const Pinhole camera{{Length{}, -250.0 * mm, -30.0 * mm}, axes, Magnification{0.5}, focus};
  const Pinhole image{image_of(camera.pupil), in_mirror(axes, normal), camera.ratio, focus};
  const auto direct = project(image_of(tooth), camera);
  const auto mirrored = project(tooth, image);
  REQUIRE(direct);
  REQUIRE(mirrored);
  CHECK(direct->right.in(mm) == Approx(mirrored->right.in(mm)));
  CHECK(direct->up.in(mm) == Approx(mirrored->up.in(mm)));
}

TEST_CASE("what lies at an edge lies there rather than at the edge beside it") {
  const Axes level = camera_axes(Angle{}, Angle{}, Angle{});
  const auto turn = [&](Vec landmark, PictureEdge edge) {
    return turn_for(level, Wish{landmark, edge});
  };
  CHECK(turn({0.6, 0, 0.8}, PictureEdge::top) == Turn::none);
  CHECK_FALSE(turn({0.8, 0, 0.6}, PictureEdge::top));
  CHECK(turn(level.right * 0.8 + level.up * 0.6, PictureEdge::right) == Turn::none);
  CHECK_FALSE(turn(level.right * 0.6 + level.up * 0.8, PictureEdge::right));
}

} // namespace norma::physics
