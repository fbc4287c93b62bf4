// Flash and room light, and the measured loss of a mirror.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <vector>

#include "physics/colour.hpp"
#include "physics/exposure.hpp"
#include "physics/grey_card.hpp"

namespace norma::physics {
namespace {

using doctest::Approx;

Shot usual() {
  Shot s;
  s.aperture = FNumber{22};
  s.iso = IsoSpeed{200};
  s.bellows = 1.5;
  s.distance = 200.0 * mm;
  return s;
}

GreyPair pair(double direct, double mirror) { return {direct / 255.0, mirror / 255.0}; }

} // namespace

TEST_CASE("a shot needs no more light than itself; each cause adds up with its sign") {
  CHECK(light_needed(usual(), usual(), {}).total() == Stops{});
  Shot other = usual();
  other.aperture = FNumber{44};
  other.iso = IsoSpeed{400};
  other.bellows = 3.0;
  other.distance = 400.0 * mm;
  other.mirror_loss = 0.5 * stop;
  const LightParts parts = light_needed(other, usual(), {});
  CHECK(parts.aperture.in(stop) == Approx(2));
  CHECK(parts.iso.in(stop) == Approx(-1));
  CHECK(parts.bellows.in(stop) == Approx(2));
  CHECK(parts.distance.in(stop) == Approx(2));
  CHECK(parts.mirror.in(stop) == Approx(0.5));
  CHECK(parts.total().in(stop) == Approx(5.5));
  CHECK(light_needed(usual(), other, {}).total().in(stop) == Approx(-5.5));
}

TEST_CASE(
    "a ring far away is a point; close up its light falls slower than by the inverse square") {
  const LampForm ring{LampForm::Kind::ring, 40.0 * mm};
  CHECK(relative_light(10.0 * metre, ring) / relative_light(10.0 * metre, {}) ==
        Approx(1).epsilon(1e-4));
  const auto drop = [](const LampForm& form) {
    return relative_light(50.0 * mm, form) / relative_light(100.0 * mm, form);
  };
  CHECK(drop({}) == Approx(4));
  CHECK(drop(ring) < 3);
}

TEST_CASE("two equal heads give a stop more than one; farther apart each is farther and aslant") {
  const auto heads = [](double off_axis) {
    return LampForm{LampForm::Kind::two_heads, off_axis * mm};
  };
  const auto stops_over_point = [](const LampForm& form, Length at) {
    return std::log2(relative_light(at, form) / relative_light(at, {}));
  };
  CHECK(stops_over_point(heads(0), 200.0 * mm) == Approx(1));
  // 45 degrees off the axis each: 1/2 by distance, sqrt(1/2) aslant, twice: 2^-0.5.
  CHECK(stops_over_point(heads(200), 200.0 * mm) == Approx(-0.5));
  // 60 beside, 80 away: 100 away, cos 0.8: 2 * 0.8 / 100^2.
  CHECK(relative_light(80.0 * mm, heads(60)) == Approx(1.6e-4));
  // Guide number of one head, both on the axis: half of the power that one alone would need.
  const auto power = [](const LampForm& form) {
    return power_by_guide_number(FNumber{24}, 0.5 * metre, 12.0 * metre, IsoSpeed{100}, Stops{},
                                 form);
  };
  CHECK(power({}).value() == Approx(1));
  CHECK(power(heads(0)).value() == Approx(0.5));
  CHECK(power(heads(500)).value() == Approx(std::sqrt(2.0)));
}

TEST_CASE("a ring's light by adding up its parts, each inverse square and aslant at both ends") {
  const double d = 60;
  const double r = 35;
  double sum = 0;
  const int parts = 360;
  for (int i = 0; i < parts; ++i) {
    const double away = std::hypot(d, r);
    const double cosine = d / away;
    sum += cosine * cosine / (away * away) / parts;
  }
  CHECK(relative_light(d * mm, {LampForm::Kind::ring, r * mm}) == Approx(sum));
}

TEST_CASE("power: thirds of a stop from full, a tie goes to more light") {
  const Power least{1.0 / 128};
  const auto set = [&](double stops) {
    return std::log2(power_setting(Power{std::exp2(stops)}, least).set.value()) * 3.0;
  };
  CHECK(set(0) == Approx(0));
  CHECK(set(-1) == Approx(-3));
  CHECK(set(-0.30) == Approx(-1));
  CHECK(set(-0.5 / 3) == Approx(0));  // tie
  CHECK(set(-1.5 / 3) == Approx(-1)); // tie
  CHECK(set(-1.51 / 3) == Approx(-2));
}

TEST_CASE("power: what is missing or too much is told before rounding, what is left after it") {
  const Power least{1.0 / 16};
  const PowerSetting short_of = power_setting(Power{2}, least);
  CHECK(short_of.set == Power{1});
  CHECK(short_of.shortfall.in(stop) == Approx(1));
  CHECK(short_of.residual.in(stop) == Approx(-1));
  const PowerSetting too_much = power_setting(Power{1.0 / 64}, least);
  CHECK(too_much.set.value() == Approx(1.0 / 16));
  CHECK(too_much.excess.in(stop) == Approx(2));
  CHECK(too_much.residual.in(stop) == Approx(2));
  // What rounds to full or to least power is had: 0.11 stop is less than half a third.
  CHECK(power_setting(Power{std::exp2(0.11)}, least).shortfall == Stops{});
  CHECK(power_setting(Power{std::exp2(0.11)}, least).set.value() == Approx(1));
  CHECK(power_setting(Power{std::exp2(0.18)}, least).shortfall.in(stop) == Approx(0.18));
  CHECK(power_setting(Power{least.value() * std::exp2(-0.11)}, least).excess == Stops{});
  CHECK(power_setting(Power{least.value() * std::exp2(-0.18)}, least).excess.in(stop) ==
        Approx(0.18));
  const PowerSetting fits = power_setting(Power{std::exp2(-0.4)}, least);
  CHECK(fits.shortfall == Stops{});
  CHECK(fits.excess == Stops{});
  CHECK(fits.residual.in(stop) == Approx(0.4 - 1.0 / 3));
}

TEST_CASE("power steps never leave more than a sixth of a stop inside the range") {
  for (int i = 0; i <= 700; ++i) {
    const PowerSetting p = power_setting(Power{std::exp2(-0.01 * i)}, Power{1.0 / 128});
    CHECK(std::abs(p.residual.in(stop)) <= 1.0 / 6 + 1e-6);
  }
}

TEST_CASE("power by a difference of brightness and back") {
  CHECK(power_for(-2.0 * stop, Power{1}).value() == Approx(0.25));
  CHECK(power_for(2.0 * stop, power_for(-2.0 * stop, Power{0.5})).value() == Approx(0.5));
}

TEST_CASE("room light: twice the light or twice the time is one stop nearer") {
  const FNumber n{33};
  const Stops at = ambient_under_flash(500.0 * lux, n, IsoSpeed{200}, 1.0 / 125.0 * second);
  CHECK(at > 5.0 * stop);
  CHECK((at - ambient_under_flash(1000.0 * lux, n, IsoSpeed{200}, 1.0 / 125.0 * second)).in(stop) ==
        Approx(1));
  CHECK((at - ambient_under_flash(500.0 * lux, n, IsoSpeed{200}, 2.0 / 125.0 * second)).in(stop) ==
        Approx(1));
}

TEST_CASE("movement and sync") {
  // 50 mm/s for a millisecond at 1:2.
  const Speed slow = 50.0 * mm / second;
  CHECK(movement_blur(slow, 0.001 * second, Magnification{0.5}).in(mm) == Approx(0.025));
  CHECK(in_sync(1.0 / 125.0 * second, 1.0 / 200.0 * second));
  CHECK(in_sync(1.0 / 200.0 * second, 1.0 / 200.0 * second));
  CHECK_FALSE(in_sync(1.0 / 250.0 * second, 1.0 / 200.0 * second));
}

TEST_CASE("linear light joins its two branches and keeps black and white") {
  CHECK(linear_light(0) == 0);
  CHECK(linear_light(1) == Approx(1));
  CHECK(linear_light(0.04045) == Approx(linear_light(0.0404500001)).epsilon(1e-4));
}

TEST_CASE("grey card: mean and standard error by hand") {
  // Losses 1 and 2 stops in linear light: mean 1.5, spread sqrt(0.5), error 0.5.
  const auto srgb = [](double linear) { return 1.055 * std::pow(linear, 1.0 / 2.4) - 0.055; };
  const std::array pairs{GreyPair{srgb(0.4), srgb(0.2)}, GreyPair{srgb(0.4), srgb(0.1)}};
  const GreyCardLoss loss = loss_by_grey_card(pairs);
  CHECK(loss.used == 2);
  CHECK(loss.mean.in(stop) == Approx(1.5));
  CHECK(loss.standard_error.in(stop) == Approx(0.5));
}

TEST_CASE("grey card: clipped pairs and outliers are named and left out") {
  const std::vector<GreyPair> pairs{pair(118, 100), pair(118, 101), pair(255, 100), pair(118, 100),
                                    pair(118, 60),  pair(118, 99),  pair(118, 3)};
  const GreyCardLoss loss = loss_by_grey_card(pairs);
  CHECK(loss.clipped == std::vector<std::size_t>{2, 6});
  CHECK(loss.outliers == std::vector<std::size_t>{4});
  CHECK(loss.used == 4);
  CHECK(loss.mean.in(stop) > 0.4);
  CHECK(loss.mean.in(stop) < 0.6);
}

TEST_CASE("grey card: with fewer than four pairs none is an outlier") {
  const std::vector<GreyPair> pairs{pair(118, 100), pair(118, 100), pair(118, 40)};
  CHECK(loss_by_grey_card(pairs).outliers.empty());
  CHECK(loss_by_grey_card(pairs).used == 3);
}

TEST_CASE("grey card: one value of 255 more or less is no outlier, even where the others agree") {
  const std::vector<GreyPair> pairs{pair(118, 100), pair(118, 100), pair(118, 100), pair(118, 100),
                                    pair(118, 101)};
  CHECK(loss_by_grey_card(pairs).outliers.empty());
}

TEST_CASE("grey card: no pairs, or only clipped ones, measure nothing") {
  CHECK(loss_by_grey_card({}).used == 0);
  const std::array pairs{pair(255, 255), GreyPair{std::nan(""), 0.4}};
  const GreyCardLoss loss = loss_by_grey_card(pairs);
  CHECK(loss.used == 0);
  CHECK(loss.clipped.size() == 2);
}

TEST_CASE("colours of light lie apart by the difference of a million over their kelvin") {
  // 1e6/4200 is 238.095, 1e6/5500 is 181.818, 1e6/5600 is 178.571.
  CHECK(colours_apart(5500.0 * kelvin, 4200.0 * kelvin).in(mired) == Approx(56.277).epsilon(1e-5));
  CHECK(colours_apart(4200.0 * kelvin, 5500.0 * kelvin).in(mired) == Approx(56.277).epsilon(1e-5));
  CHECK(colours_apart(5500.0 * kelvin, 5600.0 * kelvin).in(mired) == Approx(3.247).epsilon(1e-4));
  CHECK(colours_apart(5500.0 * kelvin, 5500.0 * kelvin) == ReciprocalTemperature{});
}

} // namespace norma::physics
