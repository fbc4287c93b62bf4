// Mirrors and cheeks: closed forms against rays that are followed one by one.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "physics/cheek.hpp"
#include "physics/mirror.hpp"
#include "physics/orientation.hpp"

namespace norma::physics {
namespace {

using doctest::Approx;

bool same_way(Vec a, Vec b) { return norm(a - b) < 1e-12; }

} // namespace

TEST_CASE("two reflections in the same mirror change nothing") {
  const Vec n = unit({0.3, -0.7, 0.2});
  const Vec v{1, 2, -3};
  CHECK(same_way(reflected(reflected(v, n), n), v));
  CHECK(norm(reflected(v, n)) == Approx(norm(v)));
  const Point on{1.0 * mm, 2.0 * mm, 3.0 * mm};
  const Point p{10.0 * mm, -4.0 * mm, 7.0 * mm};
  const Point twice = reflected(reflected(p, on, n), on, n);
  CHECK(twice.x.in(mm) == Approx(10));
  CHECK(twice.y.in(mm) == Approx(-4));
  CHECK(twice.z.in(mm) == Approx(7));
}

TEST_CASE("a point and its image lie as far from the mirror, on either side of it") {
  const Vec n = arch_mirror_normal(true, 45.0 * degree);
  const Point on{Length{}, 50.0 * mm, Length{}};
  const Point p{5.0 * mm, 10.0 * mm, Length{}};
  const Length before = along(p - on, n);
  const Length after = along(reflected(p, on, n) - on, n);
  CHECK(before.in(mm) == Approx(-after.in(mm)));
}

TEST_CASE("width and length of a mirror against rays to the reflected pupil") {
  const std::array points{ArchPoint{4.0 * mm, -1.0 * mm}, ArchPoint{18.0 * mm, 6.0 * mm},
                          ArchPoint{30.0 * mm, 28.0 * mm}, ArchPoint{31.0 * mm, 42.0 * mm}};
  const Length hinge = 44.0 * mm;
  const Length centre = 20.0 * mm;
  const Length distance = 280.0 * mm;
  for (const double opened : {30.0, 45.0, 55.0}) {
    CAPTURE(opened);
    // Upper arch in the plane z = 0, the mirror below it: from the hinge forwards and down.
    const Angle a = opened * degree;
    const Vec down_the_mirror{0, -cos(a), -sin(a)};
    const Vec normal = arch_mirror_normal(true, a);
    CHECK(dot(normal, down_the_mirror) == Approx(0).epsilon(1e-12));
    const Point on{Length{}, hinge, Length{}};
    // The pupil's image stands square to the arch, below it.
    const Point image{Length{}, centre, -distance};
    const Point pupil = reflected(image, on, normal);
    Length width;
    Length length;
    for (const ArchPoint& p : points) {
      const Point tooth{p.side, p.back, Length{}};
      // From the tooth straight to the image; where it meets the mirror.
      const Point way = image - tooth;
      const double share = along(on - tooth, normal) / along(way, normal);
      const Point hit{tooth.x + share * way.x, tooth.y + share * way.y, tooth.z + share * way.z};
      width = std::max(width, 2.0 * abs(hit.x));
      length = std::max(length, along(hit - on, down_the_mirror));
      // And it is a reflection: from there to the real pupil the ray leaves as it came in.
      const auto as_vec = [](Point q) { return Vec{q.x.in(mm), q.y.in(mm), q.z.in(mm)}; };
      CHECK(same_way(unit(as_vec(pupil - hit)), reflected(unit(as_vec(way)), normal)));
    }
    const MirrorNeed need = mirror_needed(points, hinge, a, distance, centre);
    CHECK(need.width.in(mm) == Approx(width.in(mm)));
    CHECK(need.length.in(mm) == Approx(length.in(mm)));
  }
}

TEST_CASE("seen from afar the mirror needs the arch's own width and its length over the cosine") {
  const std::array points{ArchPoint{30.0 * mm, 42.0 * mm}, ArchPoint{Length{}, Length{}}};
  const MirrorNeed need = mirror_needed(points, 44.0 * mm, 45.0 * degree, 1e9 * mm, 20.0 * mm);
  CHECK(need.width.in(mm) == Approx(60));
  CHECK(need.length.in(mm) == Approx(44.0 * std::sqrt(2.0)));
}

TEST_CASE("left and right need the same mirror, and no points need none") {
  const std::array left{ArchPoint{30.0 * mm, 30.0 * mm}};
  const std::array right{ArchPoint{-30.0 * mm, 30.0 * mm}};
  CHECK(mirror_needed(left, 44.0 * mm, 45.0 * degree, 300.0 * mm, 20.0 * mm).width ==
        mirror_needed(right, 44.0 * mm, 45.0 * degree, 300.0 * mm, 20.0 * mm).width);
  CHECK(mirror_needed({}, 44.0 * mm, 45.0 * degree, 300.0 * mm, 20.0 * mm).width == Length{});
}

TEST_CASE(
    "a camera at 90 - 2a sees the arch square, and an error turns the picture by twice as much") {
  for (const double opened : {35.0, 45.0, 50.0}) {
    CAPTURE(opened);
    const Axes camera = camera_axes(Angle{}, camera_elevation(opened * degree), Angle{});
    const Axes image = in_mirror(camera, arch_mirror_normal(true, opened * degree));
    CHECK(same_way(image.forward, {0, 0, 1}));
    CHECK(image.mirrored());
    const Axes lower_camera = camera_axes(Angle{}, -camera_elevation(opened * degree), Angle{});
    const Axes lower = in_mirror(lower_camera, arch_mirror_normal(false, opened * degree));
    CHECK(same_way(lower.forward, {0, 0, -1}));
  }
  const Angle error = 3.0 * degree;
  const Axes camera = camera_axes(Angle{}, Angle{}, Angle{});
  const Axes off = in_mirror(camera, arch_mirror_normal(true, 45.0 * degree + error));
  CHECK(std::acos(dot(off.forward, Vec{0, 0, 1})) == Approx(picture_turned(error).in(radian)));
}

TEST_CASE("a metal without absorption is glass; a perfect one reflects all") {
  CHECK(metal_reflection(RefractiveIndex{1.5}, 0, 30.0 * degree).value() ==
        Approx(front_reflection(RefractiveIndex{1.5}, 30.0 * degree).value()));
  CHECK(metal_reflection(RefractiveIndex{0.01}, 1e6, 45.0 * degree).value() ==
        Approx(1).epsilon(1e-6));
}

TEST_CASE("at grazing incidence everything is reflected, and a picture pays twice") {
  CHECK(front_reflection(RefractiveIndex{1.5}, 90.0 * degree).value() == Approx(1));
  CHECK(loss_of_one_pass(Share{0.5}).in(stop) == Approx(1));
  CHECK(loss_of_picture(Share{0.5}).in(stop) == Approx(2));
  CHECK(ghost_offset(3.0 * mm, RefractiveIndex{1.5}, Angle{}) == Length{});
}

TEST_CASE("how far back a source reaches, against the ray's two-point form") {
  const MouthCorner corner{34.0 * mm, 20.0 * mm};
  const Point source{-250.0 * mm, -150.0 * mm, Length{}};
  const auto back = reach(corner, 28.0 * mm, source);
  REQUIRE(back);
  // Source, corner and the point on the teeth lie on one line: no area between them.
  const double ax = -250.0 - -28.0, ay = -150.0 - back->in(mm);
  const double bx = -34.0 - -28.0, by = 20.0 - back->in(mm);
  CHECK(ax * by - ay * bx == Approx(0).epsilon(1e-9));
  CHECK(*back > corner.back);
}

TEST_CASE("a source that is not outside of the corner is hidden by nothing") {
  const MouthCorner corner{34.0 * mm, 20.0 * mm};
  CHECK_FALSE(reach(corner, 28.0 * mm, {-34.0 * mm, -200.0 * mm, Length{}}));
  CHECK_FALSE(reach(corner, 28.0 * mm, {Length{}, -200.0 * mm, Length{}}));
  CHECK(reach(corner, 28.0 * mm, {-34.1 * mm, -200.0 * mm, Length{}}));
}

TEST_CASE("teeth as far out as the corner are reached up to the corner") {
  const MouthCorner corner{34.0 * mm, 20.0 * mm};
  CHECK(reach(corner, 34.0 * mm, {-250.0 * mm, -150.0 * mm, Length{}})->in(mm) == Approx(20));
}

} // namespace norma::physics
