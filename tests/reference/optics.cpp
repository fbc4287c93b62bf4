// Close-up optics against published and textbook values. The source stands beside each.
#include "physics/optics.hpp"

#include "physics/attached.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace norma::physics {
namespace {

using doctest::Approx;

constexpr Size full{36.0 * mm, 24.0 * mm};
constexpr Size aps_c{23.5 * mm, 15.7 * mm};
constexpr PupilRatio symmetrical{1};

// Rows of a table of depths, in mm, as printed: each may be off by half of its last digit, and by
// `slack` of itself where the table is roughly rounded.
struct DepthRow {
  double magnification;
  std::vector<std::string> printed;
};

/// How many values of the table the formula meets, and how many there are.
std::pair<int, int> met(const std::vector<double>& f_numbers, const std::vector<DepthRow>& rows,
                        Length blur, double slack = 0) {
  int hits = 0;
  int all = 0;
  for (const DepthRow& row : rows) {
    for (std::size_t i = 0; i < f_numbers.size(); ++i) {
      const auto depth = depth_of_field(
          FNumber{f_numbers[i]}, blur, Magnification{row.magnification}, symmetrical, std::nullopt);
      const double value = whole(depth)->in(mm);
      ++all;
      const std::string& text = row.printed[i];
      const std::size_t point = text.find('.');
      const double places =
          point == std::string::npos ? 0 : static_cast<double>(text.size() - point - 1);
      const double half_digit = 0.5 * std::pow(10.0, -places);
      hits +=
          std::abs(value - std::stod(text)) <= std::max(1.02 * half_digit, slack * value) ? 1 : 0;
    }
  }
  return {hits, all};
}

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

TEST_CASE("depth of field in close-up: table of a book's spreadsheet (E. Savazzi, Digital "
          "Photography for Science, table 1; its blur comes out as 0.019 mm)") {
  const auto [hits, all] = met({1, 1.4, 2, 2.8, 4},
                               {{0.1, {"4.2", "5.9", "8.4", "12", "17"}},
                                {0.2, {"1.1", "1.6", "2.3", "3.2", "4.6"}},
                                {0.3, {"0.55", "0.77", "1.1", "1.5", "2.2"}},
                                {0.4, {"0.33", "0.47", "0.67", "0.93", "1.3"}},
                                {0.5, {"0.23", "0.32", "0.46", "0.64", "0.91"}},
                                {0.75, {"0.12", "0.17", "0.24", "0.33", "0.47"}},
                                {1, {"0.076", "0.11", "0.15", "0.21", "0.3"}},
                                {1.5, {"0.042", "0.059", "0.084", "0.12", "0.17"}},
                                {2, {"0.029", "0.04", "0.057", "0.08", "0.11"}}},
                               0.019 * mm);
  CHECK(all == 45);
  CHECK(hits == 45);
}

TEST_CASE("depth of field in close-up: macrobellows.com, Depth-of-field close up table, fetched as "
          "stored; its blur comes out as 0.05 mm, and some of its values are off by up to 1.6 %") {
  const auto [hits, all] = met({8, 16, 32, 64},
                               {{0.3, {"12", "23", "46", "91"}},
                                {0.4, {"7", "14", "28", "56"}},
                                {0.5, {"4.8", "9.6", "19.2", "38.4"}},
                                {0.6, {"3.5", "7.1", "14.2", "28.4"}},
                                {0.7, {"2.8", "5.6", "11.1", "22.1"}},
                                {0.8, {"2.2", "4.5", "9.0", "18.0"}},
                                {0.9, {"1.9", "3.7", "7.5", "15.0"}},
                                {1.0, {"1.6", "3.2", "6.4", "12.8"}},
                                {1.5, {"0.89", "1.78", "3.6", "7.04"}},
                                {2.0, {"0.60", "1.20", "2.40", "4.80"}}},
                               0.05 * mm, 0.017);
  CHECK(all == 40);
  CHECK(hits == 40);
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

TEST_CASE("an extension tube adds its length over the focal length to the ratio") {
  const BareLens lens{100.0 * mm, PupilRatio{1}, {}};
  const Attached tube{{}, 50.0 * mm, 1};
  CHECK(ratio_with(lens, tube, Magnification{0.5}).value() == Approx(1));
  // 1/f = 1/u + 1/v at 1:1: u is 2 f, measured from the thin lens itself.
  CHECK(distance_with(lens, tube, Magnification{0.5}, 300.0 * mm).in(mm) == Approx(200));
  CHECK(own_ratio(lens, tube, Magnification{1})->value() == Approx(0.5));
  CHECK_FALSE(own_ratio(lens, tube, Magnification{0.4})); // less than e/f it cannot give
  const auto same = equivalent_of(lens, tube, Magnification{0.5});
  CHECK(same->focal_length.in(mm) == Approx(100));
  CHECK(bellows_loss(Magnification{1}, same->pupil).in(stop) == Approx(2));
}

TEST_CASE("a close-up lens of 2 dioptres on 100 mm: 1/F = 1/f + D, thin lenses in contact") {
  const BareLens lens{100.0 * mm, PupilRatio{1}, {}};
  const Attached on{500.0 * mm, Length{}, 1};
  const Magnification own{0.1};
  // u = 1100 without, 1/(1/1100 + 1/500) = 343.75 with it; 0.1 times 1100 / 343.75 = 0.32.
  const Length w = distance_with(lens, on, own, bare_distance(lens, own));
  CHECK(w.in(mm) == Approx(343.75));
  const Magnification m = ratio_with(lens, on, own);
  CHECK(m.value() == Approx(0.32));
  // The combined focal length 83.33 gives that distance: F (1 + 1/m).
  const double f = 1.0 / (1.0 / 100 + 1.0 / 500);
  CHECK(f * (1 + 1 / m.value()) == Approx(343.75));
  CHECK(own_ratio(lens, on, m)->value() == Approx(0.1));
  // Far focus: the ratio is f D, the subject 1/D away.
  const Magnification far{1e-4};
  CHECK(ratio_with(lens, on, far).value() == Approx(0.2).epsilon(0.002));
  CHECK(distance_with(lens, on, far, bare_distance(lens, far)).in(mm) ==
        Approx(500).epsilon(0.001));
  // Nothing changes behind the lens: N (1 + 0.1), though the ratio is 0.32.
  const auto as = equivalent_of(lens, on, own);
  CHECK(effective_f_number(FNumber{8}, m, as->pupil).value() == Approx(8.8));
  CHECK(pupil_distance(as->focal_length, m, as->pupil).in(mm) == Approx(343.75));
}

TEST_CASE("a close-up lens on a real lens: its pupil stands 45 mm behind its front") {
  // 1/1055 + 1/500 in the place of 1/1055; the pupil's image at 45 / (1 - 45/500) = 49.45 behind.
  const std::vector<DistanceAtRatio> rows{{Magnification{0.1}, 1055.0 * mm},
                                          {Magnification{1}, 155.0 * mm}};
  const BareLens lens{100.0 * mm, PupilRatio{1}, rows};
  const Attached on{500.0 * mm, Length{}, 1};
  const Magnification own{0.1};
  CHECK(distance_with(lens, on, own, 1055.0 * mm).in(mm) == Approx(339.23).epsilon(1e-4));
  const Magnification m = ratio_with(lens, on, own);
  CHECK(m.value() == Approx(0.311));
  const auto as = equivalent_of(lens, on, own);
  CHECK(pupil_distance(as->focal_length, m, as->pupil).in(mm) ==
        Approx(339.23 + 49.45).epsilon(1e-4));
  CHECK(effective_f_number(FNumber{8}, m, as->pupil).value() == Approx(8.8));
  // As the two lenses 45 mm apart: 1/F = 1/f + D - 45 D/f, and F (1/m + 1/P').
  const double f = 1.0 / (0.01 + 0.002 - 45 * 0.002 * 0.01);
  CHECK(f * (1 / m.value() + 1 / 0.91) == Approx(339.23 + 49.45).epsilon(1e-4));
  // Too strong for where the pupil is: it would be seen at no finite place.
  CHECK_FALSE(equivalent_of(lens, {45.0 * mm, Length{}, 1}, own));
}

TEST_CASE("a converter carries ratio and f-number, and takes 2 log2 of its factor in stops") {
  const BareLens lens{100.0 * mm, PupilRatio{1}, {}};
  const Attached on{{}, Length{}, 2};
  CHECK(ratio_with(lens, on, Magnification{0.5}).value() == Approx(1));
  CHECK(f_number_with(FNumber{8}, 2).value() == Approx(16));
  const auto as = equivalent_of(lens, on, Magnification{0.5});
  CHECK(as->focal_length.in(mm) == Approx(200));
  // The camera stands where it stood: f (1/0.5 + 1/P).
  CHECK(pupil_distance(as->focal_length, Magnification{1}, as->pupil).in(mm) == Approx(300));
  // f/8 (1 + 0.5) behind the lens, twice that behind the converter: 2 stops.
  const double with = effective_f_number(FNumber{16}, Magnification{1}, as->pupil).value();
  CHECK(with == Approx(24));
  CHECK(2 * std::log2(with /
                      effective_f_number(FNumber{8}, Magnification{0.5}, PupilRatio{1}).value()) ==
        Approx(2));
  // A tube of f/2 in between: (0.25 + 0.5) twice.
  CHECK(ratio_with(lens, {{}, 50.0 * mm, 2}, Magnification{0.25}).value() == Approx(1.5));
}

} // namespace norma::physics
