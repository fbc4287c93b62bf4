// Many mouths: how they are drawn, and in how many a view holds.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "direct_view.hpp"
#include "mouths/sensitivity.hpp"
#include "mouths/shares.hpp"
#include "physics/defaults.hpp"
#include "physics/optics.hpp"
#include "placing/surfaces.hpp"

using namespace norma;
using namespace norma::mouths;
using doctest::Approx;

namespace {

namespace d = physics::defaults;

constexpr std::size_t at(Varies what) { return static_cast<std::size_t>(what); }

/// A side view from 60 degrees, both corners held firmly or less, at 1:2 on 36 x 24 mm.
placing::Setting side_view(bool from_right, std::initializer_list<int> teeth,
                           const physics::Default& aside = d::corner_side_firm,
                           const physics::Default& back = d::corner_back_firm) {
  return test::direct_view((from_right ? 60.0 : -60.0) * degree, teeth, aside, back);
}

const Mouths& adults() {
  static const Mouths all = draw(group_of(Dentition::adult), 512, 1);
  return all;
}

} // namespace

TEST_CASE("the sequence is the one that whole numbers give, whatever the machine") {
  // Worked out in another language with whole numbers of any size.
  const Sequence s(0);
  CHECK(s.at(0)[0] == 0.598477014659646);
  CHECK(s.at(1000)[0] == 0.6270053002732615);
  CHECK(s.at(0)[2] == 0.3565461291930222);
  CHECK(s.at(1000)[2] == 0.023675696704244742);
  CHECK(Sequence(1).at(0)[0] != s.at(0)[0]);
}

TEST_CASE("the sequence fills the cube: means and products come out as integrals say") {
  const Sequence s(7);
  constexpr std::size_t n = 4096;
  for (std::size_t i = 0; i < Sequence::dimensions; ++i) {
    double mean = 0;
    double product = 0;
    const std::size_t next = (i + 1) % Sequence::dimensions;
    for (std::size_t k = 0; k < n; ++k) {
      const auto p = s.at(k);
      CHECK((p[i] > 0 && p[i] < 1));
      mean += p[i] / n;
      product += p[i] * p[next] / n;
    }
    CHECK(mean == Approx(0.5).epsilon(0.002));
    CHECK(product == Approx(0.25).epsilon(0.006));
  }
}

TEST_CASE("normal deviates are those of the tables") {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, tables 26.5 and 26.6.
  CHECK(normal_deviate(0.5) == Approx(0).epsilon(1e-9));
  CHECK(normal_deviate(0.975) == Approx(1.959963984540054).epsilon(1e-9));
  CHECK(normal_deviate(0.999) == Approx(3.090232306167813).epsilon(1e-9));
  CHECK(normal_deviate(1e-6) == Approx(-4.753424308822899).epsilon(1e-9));
  for (const double share : {1e-12, 0.01, 0.3, 0.77, 0.9999})
    CHECK(0.5 * std::erfc(-normal_deviate(share) / std::numbers::sqrt2) ==
          Approx(share).epsilon(1e-8));
}

TEST_CASE("sensitivity of published functions: Ishigami, and Sobol's g") {
  const double pi = std::numbers::pi;
  // sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 on -pi..pi; indices: Saltelli et al., Global Sensitivity
  // Analysis, 2008, from V1 = (1 + b pi^4/5)^2/2, V2 = a^2/8, V13 = b^2 pi^8 (1/18 - 1/50).
  const auto ishigami = [&](const Sequence::At& p) {
    const auto x = [&](std::size_t i) { return pi * (2 * p[i] - 1); };
    return std::sin(x(0)) + 7 * std::pow(std::sin(x(1)), 2) +
           0.1 * std::pow(x(2), 4) * std::sin(x(0));
  };
  const double v1 = 0.5 * std::pow(1 + 0.1 * std::pow(pi, 4) / 5, 2);
  const double v2 = 49.0 / 8;
  const double v13 = 0.01 * std::pow(pi, 8) * (1.0 / 18 - 1.0 / 50);
  const double all = v1 + v2 + v13;
  CHECK(v1 / all == Approx(0.3139).epsilon(0.001));
  const auto found = sensitivity_of(ishigami, 3, 512, 3);
  const double alone[] = {v1 / all, v2 / all, 0};
  const double total[] = {(v1 + v13) / all, v2 / all, v13 / all};
  for (std::size_t i = 0; i < 3; ++i) {
    CAPTURE(i);
    CHECK(std::abs(found[i].alone - alone[i]) < 0.03);
    CHECK(std::abs(found[i].total - total[i]) < 0.03);
    CHECK(found[i].alone_error < 0.03);
    CHECK(found[i].total_error > 0);
  }
  // prod (|4 x - 2| + a) / (1 + a); Vi = 1/(3 (1 + a)^2): Sobol, Saltelli (same book).
  constexpr double a[] = {0, 1, 4.5, 9, 99, 99};
  const auto g = [&](const Sequence::At& p) {
    double out = 1;
    for (std::size_t i = 0; i < 6; ++i)
      out *= (std::abs(4 * p[i] - 2) + a[i]) / (1 + a[i]);
    return out;
  };
  double product = 1;
  for (const double one : a)
    product *= 1 + 1 / (3 * (1 + one) * (1 + one));
  const auto of_g = sensitivity_of(g, 6, 512, 5);
  for (std::size_t i = 0; i < 6; ++i) {
    CAPTURE(i);
    const double own = 1 / (3 * (1 + a[i]) * (1 + a[i]));
    CHECK(std::abs(of_g[i].alone - own / (product - 1)) < 0.04);
    CHECK(std::abs(of_g[i].total - own * product / (1 + own) / (product - 1)) < 0.04);
  }
  for (const Sensitivity& s : sensitivity_of([](const Sequence::At&) { return 2.0; }, 2, 64, 1)) {
    CHECK(s.alone == 0);
    CHECK(s.total == 0);
  }
}

TEST_CASE("spreads and correlations are such as patients can have") {
  for (const Dentition group : {Dentition::adult, Dentition::mixed, Dentition::primary}) {
    const auto rows = spreads(group);
    REQUIRE(rows.size() == varied);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      CHECK(at(rows[i].what) == i);
      CHECK(rows[i].by > 0);
      CHECK(!rows[i].source.empty());
    }
  }
  CHECK(lower_triangle(correlations()));
  // Of three, two each like one another and the third against both: nobody is like that.
  const Correlation none[] = {{Varies::overjet, Varies::overbite, 0.9, Origin::assumed, ""},
                              {Varies::overbite, Varies::palate, 0.9, Origin::assumed, ""},
                              {Varies::overjet, Varies::palate, -0.9, Origin::assumed, ""}};
  CHECK(!lower_triangle(none));
  const Correlation beyond[] = {{Varies::overjet, Varies::overbite, 1.1, Origin::assumed, ""}};
  CHECK(!lower_triangle(beyond));
  const auto two = lower_triangle(std::span(none).first(1));
  REQUIRE(two);
  CHECK((*two)[at(Varies::overbite)][at(Varies::overjet)] == Approx(0.9));
  CHECK((*two)[at(Varies::overbite)][at(Varies::overbite)] == Approx(std::sqrt(1 - 0.81)));
}

TEST_CASE("what is drawn has the spread, and hangs together, as the rows say") {
  Group all_built = group_of(Dentition::adult);
  all_built.spread = {}; // none is left out, and what is drawn is the same
  const Mouths drawn = draw(all_built, 2000, 4);
  REQUIRE(drawn.drawn.size() == 2000);
  const auto mean = [&](auto value) {
    double sum = 0;
    for (const Drawn& one : drawn.drawn)
      sum += value(one) / 2000;
    return sum;
  };
  // The error function's share below 0.3 standard deviations: 0.617911.
  CHECK(mean([&](const Drawn& o) { return o.off[at(Varies::overjet)] < 0.3 ? 1.0 : 0.0; }) ==
        Approx(0.5 * std::erfc(-0.3 / std::numbers::sqrt2)).epsilon(0.01));
  CHECK(mean([&](const Drawn& o) { return o.off[at(Varies::corner_back)] < 0.5 ? 1.0 : 0.0; }) ==
        Approx(0.75).epsilon(0.01));
  for (const Correlation& row : correlations()) {
    CAPTURE(static_cast<int>(row.one));
    CAPTURE(static_cast<int>(row.other));
    CHECK(std::abs(mean([&](const Drawn& o) { return o.off[at(row.one)] * o.off[at(row.other)]; }) -
                   row.r) < 0.05);
  }
  CHECK(std::abs(mean([&](const Drawn& o) {
          return o.off[at(Varies::opening)] * o.off[at(Varies::upper_molars)];
        })) < 0.03);
}

TEST_CASE("the widths that were drawn are met; what has no arch is left out and counted") {
  const Mouths drawn = draw(group_of(Dentition::adult), 1000, 4);
  MESSAGE("of 1,000 adults ", drawn.left_out(), " have no arch, ", drawn.spaced, " have spaces");
  CHECK(drawn.left_out() > 0);
  CHECK(drawn.left_out() < 150);
  for (const Drawn& one : drawn.drawn) {
    const auto& upper = one.anatomy->arch(true);
    const physics::Crown* right = physics::find_crown(upper, *physics::Tooth::from_iso(16));
    const Length face = -(right->edge.x + 0.5 * right->size.depth * right->facial.x) * 2.0;
    CHECK(face.in(mm) == Approx(d::upper_molar_width.value +
                                one.off[at(Varies::upper_molars)] * d::upper_molar_width.spread)
                             .epsilon(1e-4));
  }
}

TEST_CASE("the same mouths for every number of threads") {
  const Group group = group_of(Dentition::mixed);
  const Mouths alone = draw(group, 100, 9);
  const Mouths together = draw(group, 100, 9, 3);
  REQUIRE(alone.drawn.size() == together.drawn.size());
  for (std::size_t i = 0; i < alone.drawn.size(); ++i) {
    CHECK(alone.drawn[i].off == together.drawn[i].off);
    CHECK(alone.drawn[i].anatomy->upper == together.drawn[i].anatomy->upper);
  }
  const auto view = side_view(true, {13, 14, 15, 16});
  const Shares a = shares_of(view, adults(), false);
  const Shares b = shares_of(view, adults(), false, 3);
  CHECK(a.hold == b.hold);
  CHECK(a.fates == b.fates);
}

TEST_CASE("without spread every mouth is the mean one") {
  Group group = group_of(Dentition::adult);
  group.spread = {};
  const Mouths same = draw(group, 20, 1);
  CHECK(same.drawn.size() == 20);
  CHECK(same.drawn.front().anatomy->upper == physics::mean_anatomy(Dentition::adult)->upper);
  for (const auto& view : {side_view(true, {13, 14, 15, 16}), side_view(true, {13, 16, 17})}) {
    const auto mean = placing::outcome_of(view);
    REQUIRE(mean);
    const Shares shares = shares_of(view, same, false);
    CHECK(shares.hold == (mean->seen && mean->framed && !mean->turned ? 20 : 0));
    CHECK(shares.error == 0);
  }
}

TEST_CASE("left and right agree, and a firmer pull shows no less") {
  const Shares right = shares_of(side_view(true, {13, 14, 15, 16, 17}), adults(), false);
  const Shares left = shares_of(side_view(false, {23, 24, 25, 26, 27}), adults(), false);
  CHECK(right.hold == left.hold);
  CHECK(right.first == left.first);
  const Shares even =
      shares_of(side_view(true, {13, 14, 15, 16, 17}, d::corner_side_even, d::corner_back_even),
                adults(), false);
  for (std::size_t i = 0; i < right.surfaces.size(); ++i)
    CHECK(right.surfaces[i].seen >= even.surfaces[i].seen);
  CHECK(right.broken[static_cast<std::size_t>(Promise::seen)] <=
        even.broken[static_cast<std::size_t>(Promise::seen)]);
}

TEST_CASE("what a side view hangs on is how far back the corner of the mouth is held") {
  const auto view = side_view(true, {13, 14, 15, 16, 17});
  const auto hangs = hangs_on(view, group_of(Dentition::adult), false, 64, 2);
  REQUIRE(hangs.size() == varied);
  CHECK(hangs.front().what == Varies::corner_back);
  CHECK(hangs.front().by.total > 0.5);
  // A direct view with the teeth together asks nothing of palate and opening.
  for (const Hangs& one : hangs) {
    if (one.what == Varies::palate || one.what == Varies::opening) CHECK(one.by.total == 0);
  }
  // What a clinic has measured varies no more.
  Group measured = group_of(Dentition::adult);
  measured.spread[at(Varies::corner_back)] = 0;
  for (const Hangs& one : hangs_on(view, measured, false, 16, 2, 2))
    CHECK(one.what != Varies::corner_back);
}

TEST_CASE("a share by the sequence lies within its error of one by pseudo-random draws") {
  const auto view = side_view(true, {13, 14, 15, 16});
  const Shares shares = shares_of(view, adults(), false);
  REQUIRE(shares.error > 0);
  CHECK(shares.error < 0.05);
  // Drawn anew, with another generator and without the triangle: what is independent here is the
  // corner alone, the teeth are those of the sequence in another order.
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> both_ways(-1, 1);
  std::uniform_int_distribution<std::size_t> any(0, adults().drawn.size() - 1);
  std::size_t hold = 0;
  constexpr int n = 4000;
  for (int i = 0; i < n; ++i) {
    Drawn one = adults().drawn[any(random)];
    one.corner_aside = 4.0 * both_ways(random) * mm;
    one.corner_back = 6.0 * both_ways(random) * mm;
    hold += look_into(view, one, false).fate ? 0u : 1u;
  }
  const double share = static_cast<double>(hold) / n;
  const double error = std::sqrt(share * (1 - share) / n + shares.error * shares.error);
  MESSAGE("holds in ", shares.share(), " +- ", shares.error, "; drawn otherwise ", share);
  CHECK(std::abs(share - shares.share()) < 4 * error);
}
