// Light against published values. The source stands beside each.
#include "physics/exposure.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "physics/grey_card.hpp"

namespace norma::physics {

using doctest::Approx;

TEST_CASE("sRGB to linear light (IEC 61966-2-1)") {
  CHECK(linear_light(0.5) == Approx(0.214041).epsilon(5e-6));
  CHECK(linear_light(118.0 / 255.0) == Approx(0.181164).epsilon(5e-6));
  CHECK(linear_light(90.0 / 255.0) == Approx(0.102242).epsilon(5e-6));
  const std::array pair{GreyPair{118.0 / 255.0, 90.0 / 255.0}};
  CHECK(loss_by_grey_card(pair).mean.in(stop) == Approx(0.8253).epsilon(1e-4));
}

TEST_CASE("incident light at EV 0 and ISO 100 is 2.5 lx (ISO 2720, C = 250)") {
  const FNumber one{1};
  CHECK(ambient_under_flash(2.5 * lux, one, IsoSpeed{100}, 1.0 * second).in(stop) == Approx(0));
  // EV 10 asks for 2^10 times the light.
  CHECK(
      ambient_under_flash(2560.0 * lux, FNumber{std::exp2(3.0)}, IsoSpeed{100}, 1.0 / 16.0 * second)
          .in(stop) == Approx(0));
}

TEST_CASE("a guide number is distance times f-number at full power (ISO 1230)") {
  // Guide number 12 m at ISO 100: f/24 at half a metre.
  CHECK(power_by_guide_number(FNumber{24}, 0.5 * metre, 12.0 * metre, IsoSpeed{100}, Stops{})
            .value() == Approx(1));
  CHECK(power_by_guide_number(FNumber{24}, 0.5 * metre, 12.0 * metre, IsoSpeed{400}, Stops{})
            .value() == Approx(0.25));
}

} // namespace norma::physics
