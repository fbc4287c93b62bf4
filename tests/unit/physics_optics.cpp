// Closed forms of close-up optics: their limits, and one against the other.
#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "physics/optics.hpp"

namespace norma::physics {
namespace {

using doctest::Approx;

constexpr Size full{36.0 * mm, 24.0 * mm};
constexpr Length c = 0.030 * mm;
constexpr Length f = 100.0 * mm;
constexpr PupilRatio asymmetrical{1.4};

} // namespace

TEST_CASE("a ratio on the same sensor stays as it is") {
  const CarriedRatio same = carried_ratio(Magnification{0.47}, full, full);
  CHECK(same.nominal == Magnification{0.47});
  CHECK(same.shortfall == Share{0});
}

TEST_CASE(
    "width, height and diagonal carry a ratio over differently; the smallest holds the field") {
  constexpr Size small{17.3 * mm, 13.0 * mm};
  const Magnification half{0.5};
  const auto by = [&](CarriedBy side) { return ratio_carried_by(side, half, full, small).value(); };
  CHECK(by(CarriedBy::width) == Approx(0.5 * 17.3 / 36));
  CHECK(by(CarriedBy::height) == Approx(0.5 * 13.0 / 24));
  CHECK(by(CarriedBy::width) < by(CarriedBy::diagonal));
  CHECK(by(CarriedBy::diagonal) < by(CarriedBy::height));
  CHECK(carried_ratio(half, full, small).exact.value() == Approx(by(CarriedBy::width)));
}

TEST_CASE("no round ratio within 3 per cent: the exact one is set") {
  // 2:1 on the small sensor has no 1:n beside it.
  const CarriedRatio r = carried_ratio(Magnification{2}, full, {24.0 * mm, 16.0 * mm});
  CHECK(r.nominal == r.exact);
  CHECK(r.exact.value() == Approx(4.0 / 3.0));
}

TEST_CASE("at the limits of the depth of field a point is blurred by just c") {
  for (const double m : {0.1, 0.5, 1.0, 2.0}) {
    CAPTURE(m);
    const Magnification ratio{m};
    const FNumber n{16};
    const Depth depth = depth_of_field(n, c, ratio, asymmetrical, f);
    REQUIRE(depth.far);
    CHECK(blur_of_point(-depth.near, f, n, ratio, asymmetrical)->in(mm) == Approx(c.in(mm)));
    CHECK(blur_of_point(*depth.far, f, n, ratio, asymmetrical)->in(mm) == Approx(c.in(mm)));
    CHECK(whole(depth)->in(mm) == Approx((depth.near + *depth.far).in(mm)));
    CHECK(depth.near < *depth.far);
  }
}

TEST_CASE("a point in the focus plane is not blurred, one behind the lens has no blur") {
  const Magnification half{0.5};
  CHECK(*blur_of_point(Length{}, f, FNumber{8}, half, asymmetrical) == Length{});
  const Length to_pupil = pupil_distance(f, half, asymmetrical);
  CHECK_FALSE(blur_of_point(-to_pupil, f, FNumber{8}, half, asymmetrical));
  CHECK_FALSE(blur_of_point(-2.0 * to_pupil, f, FNumber{8}, half, asymmetrical));
}

TEST_CASE("far is infinite from N c = m f on") {
  const Magnification m{0.0066};
  CHECK_FALSE(depth_of_field(FNumber{22.1}, c, m, asymmetrical, f).far);
  CHECK_FALSE(whole(depth_of_field(FNumber{22.1}, c, m, asymmetrical, f)));
  CHECK(depth_of_field(FNumber{21.9}, c, m, asymmetrical, f).far);
}

TEST_CASE("focused where both ends are blurred alike, a little in front of the middle") {
  const Magnification half{0.5};
  const Length x = pupil_distance(f, half, asymmetrical);
  for (const double t : {1.0, 10.0, 30.0}) {
    CAPTURE(t);
    const Length near = balanced_focus(t * mm, x);
    CHECK(near < 0.5 * t * mm);
    CHECK(near > 0.4 * t * mm);
    CHECK(blur_of_point(-near, f, FNumber{16}, half, asymmetrical)->in(mm) ==
          Approx(blur_of_point(t * mm - near, f, FNumber{16}, half, asymmetrical)->in(mm)));
  }
  CHECK(balanced_focus(Length{}, x) == Length{});
}

TEST_CASE("the f-number that holds a depth gives that depth, and a wider one does not") {
  const Magnification half{0.5};
  const auto n = f_number_holding(2.0 * mm, 5.0 * mm, c, half, asymmetrical, f);
  REQUIRE(n);
  const Depth depth = depth_of_field(*n, c, half, asymmetrical, f);
  CHECK(depth.near.in(mm) >= 2.0 - 1e-9);
  CHECK(depth.far->in(mm) == Approx(5));
  const Depth less = depth_of_field(FNumber{n->value() * 0.99}, c, half, asymmetrical, f);
  CHECK(*less.far < 5.0 * mm);
}

TEST_CASE("nothing in front of the focus can be held beyond the pupil") {
  const Magnification half{0.5};
  CHECK_FALSE(f_number_holding(300.0 * mm, Length{}, c, half, PupilRatio{1}, f));
}

TEST_CASE("the largest ratio that holds a depth just holds it") {
  const FNumber n{22};
  const auto m = ratio_holding(3.0 * mm, 3.0 * mm, n, c, asymmetrical, f);
  REQUIRE(m);
  CHECK(f_number_holding(3.0 * mm, 3.0 * mm, c, *m, asymmetrical, f)->value() <= n.value());
  const Magnification larger{m->value() * 1.001};
  CHECK(f_number_holding(3.0 * mm, 3.0 * mm, c, larger, asymmetrical, f)->value() > n.value());
}

TEST_CASE("depth with diffraction has its top where the formula says, and its window around it") {
  const Magnification half{0.5};
  const FNumber best = sharpest_effective_f_number(c);
  const Length top = *depth_with_diffraction(best, c, half);
  CHECK(top.in(mm) == Approx(greatest_depth(c, half).in(mm)));
  CHECK(*depth_with_diffraction(FNumber{best.value() * 1.05}, c, half) < top);
  CHECK(*depth_with_diffraction(FNumber{best.value() * 0.95}, c, half) < top);
  const auto window = aperture_window(0.6 * top, c, half);
  REQUIRE(window);
  CHECK(window->low < best);
  CHECK(best < window->high);
  CHECK(depth_with_diffraction(window->low, c, half)->in(mm) == Approx(0.6 * top.in(mm)));
  CHECK(depth_with_diffraction(window->high, c, half)->in(mm) == Approx(0.6 * top.in(mm)));
  CHECK_FALSE(aperture_window(1.001 * top, c, half));
}

TEST_CASE("where diffraction alone exceeds c no depth is left") {
  const FNumber past{1.01 * (c / (airy_half_maximum * green_light))};
  CHECK_FALSE(depth_with_diffraction(past, c, Magnification{0.5}));
}

TEST_CASE("at the greatest ratio for a depth that depth is the greatest") {
  const Magnification m = greatest_ratio_for(8.0 * mm, c);
  CHECK(greatest_depth(c, m).in(mm) == Approx(8));
}

TEST_CASE("a ratio that must do is rounded to the smaller image") {
  CHECK(rounded_smaller(Magnification{0.5}).value() == Approx(0.5));
  CHECK(1.0 / rounded_smaller(Magnification{1.0 / 2.01}).value() == Approx(2.05));
  CHECK(rounded_smaller(Magnification{1.99}).value() == Approx(1.95));
}

TEST_CASE("working distance: linear in 1/m, the ends belong to the table, nothing beyond them") {
  const std::array table{DistanceAtRatio{Magnification{1.0 / 3}, 290.0 * mm},
                         DistanceAtRatio{Magnification{0.5}, 205.0 * mm},
                         DistanceAtRatio{Magnification{1}, 140.0 * mm}};
  const auto at = [&](double m) { return working_distance(table, Magnification{m}); };
  CHECK(at(1.0 / 3)->in(mm) == Approx(290));
  CHECK(at(0.4)->in(mm) == Approx(247.5)); // 1:2.5, half way from 1:3 to 1:2
  CHECK(at(0.5)->in(mm) == Approx(205));
  CHECK(at(1)->in(mm) == Approx(140));
  CHECK_FALSE(at(0.33));
  CHECK(beyond(table, Magnification{0.33}) == Beyond::smallest_image);
  CHECK_FALSE(at(1.01));
  CHECK(beyond(table, Magnification{1.01}) == Beyond::largest_image);
  CHECK_FALSE(beyond(table, Magnification{0.5}));
  CHECK_FALSE(working_distance({}, Magnification{1}));
  CHECK_FALSE(beyond({}, Magnification{1}));
}

TEST_CASE("a sensor half as large is allowed half the blur") {
  CHECK(usual_blur({18.0 * mm, 12.0 * mm}).in(mm) == Approx(0.015));
}

} // namespace norma::physics
