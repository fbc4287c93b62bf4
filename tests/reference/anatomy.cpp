// Teeth, arches and the jaw against published values. The source stands beside each.
#include <doctest/doctest.h>

#include <cmath>

#include "physics/anatomy/anatomy.hpp"
#include "physics/defaults.hpp"

namespace norma::physics {
namespace {

using doctest::Approx;

Tooth tooth(int iso) { return *Tooth::from_iso(iso); }

Length widths_to(int first_of_quadrant, int last_position) {
  Length sum;
  for (int p = 1; p <= last_position; ++p)
    sum += crown_size(tooth(first_of_quadrant + p)).width;
  return 2.0 * sum;
}

/// Apart from the tooth of the other side, at the tip or middle.
Length apart(const std::vector<Crown>& arch, int iso) {
  return 2.0 * abs(find_crown(arch, tooth(iso))->edge.x);
}
/// Apart at the facial-axis points.
Length faces_apart(const std::vector<Crown>& arch, int iso) {
  const Crown& c = *find_crown(arch, tooth(iso));
  return 2.0 * abs(c.edge.x + 0.5 * c.size.depth * c.facial.x);
}

} // namespace

TEST_CASE("sums of crown widths (Wheeler's Dental Anatomy, 9th ed. 2010)") {
  CHECK(widths_to(10, 7).in(mm) == Approx(111));
  CHECK(widths_to(40, 7).in(mm) == Approx(106));
  CHECK(widths_to(10, 3).in(mm) == Approx(45));
  CHECK(widths_to(40, 3).in(mm) == Approx(35));
}

TEST_CASE("canine tips apart (Woelfel 2014, Wankhede et al. 2023: 34.8 to 36.1; 26.9)") {
  const Length upper = apart(adult_arch(true), 13);
  CHECK(upper.in(mm) >= 34.8);
  CHECK(upper.in(mm) <= 36.1);
  CHECK(apart(adult_arch(false), 43).in(mm) == Approx(26.9).epsilon(0.001));
}

TEST_CASE("first molars apart at the facial axis (Mina et al., Odontology 2017;105:229-236)") {
  CHECK(faces_apart(adult_arch(true), 16).in(mm) == Approx(57.92).epsilon(0.0001));
  CHECK(faces_apart(adult_arch(false), 46).in(mm) == Approx(54.19).epsilon(0.0001));
}

TEST_CASE("depth of the arch, which gives, stays inside the published spread (Mina et al. 2017)") {
  const double upper = adult_arch_depth(true).in(mm);
  const double lower = adult_arch_depth(false).in(mm);
  CHECK(std::abs(upper - 31.59) < 2.90);
  CHECK(std::abs(lower - 28.10) < 2.59);
}

TEST_CASE("sums of every column of the table of crowns (Wheeler's, summed by hand from the "
          "published rows): a wrong digit anywhere shows") {
  struct Sums {
    double height = 0;
    double neck = 0;
    double depth = 0;
    double depth_at_neck = 0;
    double width = 0;
  };
  const auto sums = [](std::initializer_list<std::pair<int, int>> runs) {
    Sums out;
    for (const auto& run : runs) {
      for (int iso = run.first; iso <= run.second; ++iso) {
        const CrownSize size = crown_size(tooth(iso));
        out.height += size.height.in(mm);
        out.neck += size.width_at_neck.in(mm);
        out.depth += size.depth.in(mm);
        out.depth_at_neck += size.depth_at_neck.in(mm);
        out.width += size.width.in(mm);
      }
    }
    return out;
  };
  const Sums permanent = sums({{11, 18}, {31, 38}});
  CHECK(permanent.height == Approx(135.0));
  CHECK(permanent.neck == Approx(96.5));
  CHECK(permanent.depth == Approx(136.5));
  CHECK(permanent.depth_at_neck == Approx(122.1));
  CHECK(permanent.width == Approx(127.0));
  const Sums milk = sums({{51, 55}, {71, 75}});
  CHECK(milk.height == Approx(56.6));
  CHECK(milk.neck == Approx(48.3));
  CHECK(milk.depth == Approx(63.0));
  CHECK(milk.depth_at_neck == Approx(51.1));
  CHECK(milk.width == Approx(65.0));
}

TEST_CASE("the beta function is too narrow at the canines (Braun, Angle Orthod 1998;68:29-36)") {
  // 3.0314 x 0.5^1.6 = 1: the curve starts at the incisors.
  CHECK(3.0314 * std::pow(0.5, 1.6) == Approx(1).epsilon(2e-5));
  // Along the beta curve, W and D at the middles of our second molars, as far as the canines.
  const Crown& second_molar = *find_crown(adult_arch(true), tooth(17));
  const double w = 2.0 * std::abs(second_molar.edge.x.in(mm));
  const double d = second_molar.edge.y.in(mm);
  const auto back = [&](double x) { return d - 3.0314 * d * std::pow(0.25 - x * x / w / w, 0.8); };
  const double to_canine = 8.5 + 6.5 + 0.5 * 7.5;
  const double step = 0.001;
  double x = 0;
  for (double arc = 0; arc < to_canine; x += step)
    arc += std::hypot(step, back(x + step) - back(x));
  // Half of the published 35.2 mm, less the tip that stands outside of the curve.
  const Crown& canine = *find_crown(adult_arch(true), tooth(13));
  const double needed = 17.6 - defaults::canine_tip.value * std::abs(canine.facial.x);
  CHECK(x < needed - 1.0);
}

TEST_CASE("mixed teeth: canines (525 children of 9 years) and first molars (Moyers, from memory)") {
  CHECK(apart(mean_arch(Dentition::mixed, true), 53).in(mm) == Approx(31.67).epsilon(0.001));
  CHECK(apart(mean_arch(Dentition::mixed, false), 83).in(mm) == Approx(25.61).epsilon(0.001));
  CHECK(apart(mean_arch(Dentition::mixed, true), 16).in(mm) == Approx(43.38).epsilon(0.0001));
  CHECK(apart(mean_arch(Dentition::mixed, false), 46).in(mm) == Approx(40.93).epsilon(0.0001));
}

TEST_CASE("milk teeth: canines (525 children of 3 years); the curve runs on to where the first "
          "molars come (Moyers at 6 years, from memory)") {
  CHECK(apart(mean_arch(Dentition::primary, true), 53).in(mm) == Approx(27.3).epsilon(0.001));
  CHECK(apart(mean_arch(Dentition::primary, false), 83).in(mm) == Approx(23.19).epsilon(0.001));
  for (const bool upper : {true, false}) {
    const ArchCurve curve = *solve_arch(tooth_row(Dentition::primary, upper));
    const int quadrant = upper ? 50 : 80;
    // Three and a half spaces of 4 / 7 and 3 / 7 mm.
    Length arc = (upper ? 2.0 : 1.5) * mm + 0.5 * crown_size(tooth(upper ? 16 : 46)).width;
    for (int p = 1; p <= 5; ++p)
      arc += crown_size(tooth(quadrant + p)).width;
    CHECK(2.0 * curve.side_at_arc(arc).in(mm) == Approx(upper ? 41.6 : 40.1).epsilon(0.0001));
  }
}

TEST_CASE("milk arches, worked out once more outside of the project (plain Newton steps, 120 Runge-"
          "Kutta steps of second order): faces of the second molars and canines") {
  const auto& upper = mean_arch(Dentition::primary, true);
  const auto& lower = mean_arch(Dentition::primary, false);
  CHECK(faces_apart(upper, 55).in(mm) == Approx(2 * 23.49).epsilon(0.002));
  CHECK(faces_apart(lower, 85).in(mm) == Approx(2 * 22.13).epsilon(0.002));
  CHECK(find_crown(upper, tooth(55))->edge.y.in(mm) == Approx(23.61).epsilon(0.002));
  CHECK((find_crown(lower, tooth(85))->edge.y.in(mm)-2.5) == Approx(17.62).epsilon(0.002));
}

TEST_CASE("upper teeth close outside of the lower ones, in adults and children") {
  for (const Dentition d : {Dentition::adult, Dentition::mixed, Dentition::primary}) {
    const bool milk = d == Dentition::primary;
    const auto& upper = mean_arch(d, true);
    const auto& lower = mean_arch(d, false);
    CHECK(faces_apart(upper, milk ? 55 : 16) > faces_apart(lower, milk ? 85 : 46));
    CHECK(faces_apart(upper, milk ? 52 : 12) > faces_apart(lower, milk ? 82 : 42));
  }
}

TEST_CASE("the jaw turns by about 32 degrees at 46 mm opening (optoelectronic study, 2004)") {
  const auto pose = jaw_open(46.0 * mm);
  REQUIRE(pose);
  CHECK(std::abs(pose->rotation.in(degree)-32.0) < 2.0);
}

TEST_CASE("a pure hinge about the first 17 mm only (Woelfel 2014)") {
  CHECK(jaw_open(17.0 * mm)->slide == Length{});
  CHECK(jaw_open(20.0 * mm)->slide > 0.5 * mm);
}

TEST_CASE("mean greatest openings are reached: 51.3 mm men, 44.3 mm women (PMC3428458)") {
  CHECK(jaw_open(51.3 * mm).has_value());
  CHECK(jaw_open(44.3 * mm).has_value());
}

} // namespace norma::physics
