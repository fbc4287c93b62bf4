// Mirrors against exact optics and published optical constants. The source stands beside each.
#include "physics/mirror.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string_view>

namespace norma::physics {

using doctest::Approx;

TEST_CASE("second image of 3 mm glass, n 1.5 (plane-parallel plate, exact)") {
  const auto ghost = [](double angle) {
    return ghost_offset(3.0 * mm, RefractiveIndex{1.5}, angle * degree).in(mm);
  };
  CHECK(ghost(15) == Approx(1.015).epsilon(0.0005));
  CHECK(ghost(30) == Approx(1.837).epsilon(0.0005));
  CHECK(ghost(45) == Approx(2.268).epsilon(0.0005));
  CHECK(ghost(60) == Approx(2.121).epsilon(0.0005));
}

TEST_CASE("the second image lies farthest off, 0.764 t, at 49.2 degrees") {
  double best = 0;
  double at = 0;
  for (int i = 0; i <= 9000; ++i) {
    const double angle = 0.01 * i;
    const double offset = ghost_offset(1.0 * mm, RefractiveIndex{1.5}, angle * degree).in(mm);
    if (offset > best) {
      best = offset;
      at = angle;
    }
  }
  CHECK(best == Approx(0.764).epsilon(0.001));
  CHECK(at == Approx(49.2).epsilon(0.001));
}

TEST_CASE("glass reflects 5.02 % at 45 degrees, n 1.5 (Fresnel)") {
  CHECK(front_reflection(RefractiveIndex{1.5}, 45.0 * degree).value() ==
        Approx(0.0502).epsilon(0.001));
  // Straight on: ((n - 1)/(n + 1))^2.
  CHECK(front_reflection(RefractiveIndex{1.5}, Angle{}).value() == Approx(0.04));
  CHECK(front_reflection(RefractiveIndex{1.52}, Angle{}).value() == Approx(0.0426).epsilon(0.001));
}

TEST_CASE("metal mirrors at 550 nm, from published n and k") {
  // Read from the refractiveindex.info database (CC0), linear between the two lines around 550 nm.
  struct Metal {
    std::string_view source;
    double n, k;
    double straight;    // reflectance at 0 degrees
    double least, most; // stops at 45 degrees, one pass
  };
  const Metal metals[] = {
      {"rhodium, bulk: Weaver, Olson, Lynch, Phys Rev B 15:4115 (1977)", 1.9667, 5.0156, 0.768,
       0.39, 0.45},
      {"rhodium, evaporated: Coulter, Hass, Ramsey, J Opt Soc Am 63:1149 (1973)", 1.8061, 4.4408,
       0.738, 0.39, 0.455},
      {"rhodium, poor film: Arndt et al., Appl Opt 23:3571 (1984)", 2.68, 3.36, 0.568, 0.82, 0.84},
      {"chromium film: Johnson, Christy, Phys Rev B 9:5056 (1974)", 3.1812, 3.3291, 0.555, 0.64,
       0.875},
      {"chromium: Rakic et al., Appl Opt 37:5271 (1998), LD model", 2.9008, 4.2311, 0.650, 0.635,
       0.87},
      {"aluminium: Rakic, Appl Opt 34:4755 (1995)", 1.0152, 6.6273, 0.915, 0.13, 0.145},
  };
  for (const Metal& m : metals) {
    CAPTURE(m.source);
    const Share straight = metal_reflection(RefractiveIndex{m.n}, m.k, Angle{});
    CHECK(straight.value() == Approx(m.straight).epsilon(0.002));
    const Stops loss = loss_of_one_pass(metal_reflection(RefractiveIndex{m.n}, m.k, 45.0 * degree));
    CHECK(loss.in(stop) >= m.least);
    CHECK(loss.in(stop) <= m.most);
  }
}

TEST_CASE(
    "a dielectric mirror, 99 % on average, costs about 0.01 stop (J-STAGE jamdmicro 2024;15(2))") {
  CHECK(loss_of_one_pass(Share{0.99}).in(stop) == Approx(0.0145).epsilon(0.01));
}

TEST_CASE(
    "an arch mirror opened by 45 degrees is looked at from straight ahead (draft ANSI/ADA 1100)") {
  CHECK(camera_elevation(45.0 * degree).in(degree) == Approx(0));
}

} // namespace norma::physics
