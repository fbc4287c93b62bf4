// Close-up optics against published and textbook values. The source stands beside each.
#include "physics/optics.hpp"

#include <doctest/doctest.h>

#include <cmath>

namespace norma::physics {
namespace {

using doctest::Approx;

constexpr Size full{36.0 * mm, 24.0 * mm};
constexpr Size aps_c{23.5 * mm, 15.7 * mm};
constexpr PupilRatio symmetrical{1};

} // namespace

TEST_CASE("close-up exposure factor (handbooks of photography)") {
  const Magnification half{0.5};
  const Magnification life{1};
  CHECK(bellows_factor(half, symmetrical) * bellows_factor(half, symmetrical) == Approx(2.25));
  CHECK(bellows_loss(half, symmetrical).in(stop) == Approx(1.170).epsilon(0.0005));
  CHECK(bellows_factor(life, symmetrical) * bellows_factor(life, symmetrical) == Approx(4));
  CHECK(bellows_loss(life, symmetrical).in(stop) == Approx(2));
}

TEST_CASE("depth of field at 1:1, f/22 (P. Fan, Clinical Photography part V, Oral Health: 3 mm)") {
  const auto depth = [](Length c) {
    return whole(depth_of_field(FNumber{22}, c, Magnification{1}, symmetrical, std::nullopt));
  };
  CHECK(depth(0.030 * mm)->in(mm) == Approx(2.64));
  CHECK(depth(1.0 / 30.0 * mm)->in(mm) == Approx(2.9333).epsilon(0.0001));
  // Printed without decimals both are his 3 mm.
  CHECK(std::round(depth(0.030 * mm)->in(mm)) == 3);
  CHECK(std::round(depth(1.0 / 30.0 * mm)->in(mm)) == 3);
}

TEST_CASE("fields of the usual ratios (AACD guide: 1:10, 1:2, 1:1)") {
  CHECK(field(full, Magnification{0.5}) == Size{72.0 * mm, 48.0 * mm});
  CHECK(field(full, Magnification{1}) == full);
  CHECK(field(full, Magnification{0.1}).width.in(mm) == Approx(360));
  CHECK(field(aps_c, Magnification{1.0 / 3.0}).width.in(mm) == Approx(70.5));
}

TEST_CASE("the same views on a sensor 23.5 mm wide (Dental Tribune: 1:15, 1:3, 1:1.5)") {
  const auto on_aps_c = [](double m) { return carried_ratio(Magnification{m}, full, aps_c); };
  CHECK(1.0 / on_aps_c(0.5).nominal.value() == Approx(3));
  CHECK(1.0 / on_aps_c(1.0).nominal.value() == Approx(1.5));
  // 70.5 of 72 mm.
  CHECK(on_aps_c(0.5).shortfall.value() == Approx(1.0 - 70.5 / 72.0));
  // The exact ratio is 1:15.32: 1:15.5 would lose nothing, but 1:15 is the round one within 3 %.
  const CarriedRatio portrait = on_aps_c(0.1);
  CHECK(std::abs(portrait.exact.value() * 15 - 1) < 0.03);
  CHECK(1.0 / portrait.exact.value() == Approx(15.319).epsilon(0.0001));
  CHECK(1.0 / portrait.nominal.value() == Approx(15));
  // 352.5 of 360 mm.
  CHECK(portrait.shortfall.value() == Approx(1.0 - 352.5 / 360.0));
}

TEST_CASE("whole Airy disc, 2.44 lambda N, at f/16 and 550 nm (textbooks of optics)") {
  CHECK(diffraction_blur(FNumber{16}, airy_whole_disc).in(micrometre) ==
        Approx(21.5).epsilon(0.002));
}

TEST_CASE(
    "with the whole Airy disc the greatest depth at 1:2 would be 2.7 mm (c^2/(k lambda m^2))") {
  CHECK(greatest_depth(0.030 * mm, Magnification{0.5}, airy_whole_disc).in(mm) ==
        Approx(2.7).epsilon(0.01));
  // 0.03^2 / (2.44 x 0.00055 x 0.25), by hand.
  CHECK(greatest_depth(0.030 * mm, Magnification{0.5}, airy_whole_disc).in(mm) ==
        Approx(0.0009 / 0.0003355));
}

TEST_CASE("allowed blur by convention: 0.030 mm on 36 x 24 mm") {
  CHECK(usual_blur(full).in(mm) == Approx(0.030));
}

} // namespace norma::physics
