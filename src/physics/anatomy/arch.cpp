#include "physics/anatomy/arch.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace norma::physics {
namespace {

// Places in a row, from the midline: all rows hold these two.
constexpr std::size_t canine = 2;
constexpr std::size_t first_molar = 5;
// The curve of Spee ends at the second molar, or at the last tooth in front of it.
constexpr std::size_t second_molar = 6;

/// Length of the arch from the midline to the middle of a tooth.
Length arc_to(const ToothRow& row, std::size_t place) {
  Length arc = 0.5 * row.space;
  for (std::size_t p = 0; p < place; ++p)
    arc += row.sizes[p].width + (p <= canine ? row.space : Length{});
  return arc + 0.5 * row.sizes[place].width;
}

/// Towards the lips or cheek: square to the curve, away from the mouth.
Vec outward(Vec along) { return {along.y, -along.x, 0}; }

double slope(const ArchCurve& c, double x) {
  const double x2 = x * x;
  return (6.0 * c.a * x2 * x2 + 2.0 * c.b) * x;
}

/// How much the arc grows with the way to the side.
double arc_rate(const ArchCurve& c, double x) {
  const double rise = slope(c, x);
  return std::sqrt(1.0 + rise * rise);
}

/// Integral from 0 to `x` by Gauss and Legendre's rule of eight points (Abramowitz and Stegun,
/// Handbook of Mathematical Functions, table 25.4) in pieces of 8 mm at most: of arches exact but
/// for rounding.
template <class Function> double integral(double x, const Function& f) {
  constexpr double nodes[] = {0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                              0.9602898564975363};
  constexpr double weights[] = {0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                0.1012285362903763};
  const int pieces = std::max(1, static_cast<int>(std::ceil(x / 8.0)));
  const double half = 0.5 * x / pieces;
  double sum = 0;
  for (int piece = 0; piece < pieces; ++piece) {
    const double middle = (2 * piece + 1) * half;
    for (int i = 0; i < 4; ++i)
      sum += weights[i] * (f(middle - nodes[i] * half) + f(middle + nodes[i] * half));
  }
  return sum * half;
}

/// Length of the curve from the midline to `x`, in mm.
double arc_at(const ArchCurve& c, double x) {
  return integral(x, [&](double t) { return arc_rate(c, t); });
}

/// Where the curve is `arc` long, in mm: Newton's method from `start`, and halving where it leaves
/// the bounds that are known.
double side_at(const ArchCurve& c, double arc, double start) {
  constexpr int most_steps = 60;
  double least = 0;
  double most = arc; // a curve is no shorter than its way to the side
  double x = std::clamp(start, least, most);
  for (int step = 0; step < most_steps; ++step) {
    const double off = arc_at(c, x) - arc;
    (off > 0 ? most : least) = x;
    double next = x - off / arc_rate(c, x);
    if (!(next >= least && next <= most)) next = 0.5 * (least + most);
    const double moved = std::abs(next - x);
    x = next;
    // What is left is of the order of its square.
    if (moved <= 1e-8 * arc) break;
  }
  return x;
}

/// Where a landmark is found.
struct Landmark {
  double side; // on the curve, mm from the midline
  double off;  // mm of half width beside where it must be
};
struct Found {
  Landmark canine;
  Landmark molar;
};
/// How far out of the curve each landmark lies, square to it.
double molar_out(const ToothRow& row) {
  return row.widths.molars_at == MolarLandmark::facial_axis
             ? (0.5 * row.sizes[first_molar].depth).in(mm)
             : 0.0;
}
/// `near`: of a curve like this one; the search starts there.
Found found(const ToothRow& row, const ArchCurve& curve, Length canine_tip, const Found& near) {
  const auto landmark = [&](std::size_t place, double start, double out, Length width) {
    const double side = side_at(curve, arc_to(row, place).in(mm), start);
    const double tip = side + out * outward(curve.along_at(side * mm)).x;
    return Landmark{side, tip - (width / 2.0).in(mm)};
  };
  return {landmark(canine, near.canine.side, canine_tip.in(mm), row.widths.canines),
          landmark(first_molar, near.molar.side, molar_out(row), row.widths.molars)};
}

/// How fast it comes off with `a` and with `b`, the arc to it left as it is.
struct Rates {
  double by_a;
  double by_b;
};
Rates rates(const ArchCurve& c, const Landmark& at, double out) {
  const double x = at.side;
  const double rate = arc_rate(c, x);
  const double bend = 30.0 * c.a * x * x * x * x + 2.0 * c.b;
  const auto by = [&](const auto& steeper) {
    const double longer =
        integral(x, [&](double t) { return slope(c, t) * steeper(t) / arc_rate(c, t); });
    const double aside = -longer / rate;
    return aside + out * (steeper(x) + bend * aside) / (rate * rate * rate);
  };
  return {by([](double t) { return 6.0 * t * t * t * t * t; }),
          by([](double t) { return 2.0 * t; })};
}

/// Height of the biting edges over the plane through the upper incisors' edges.
Length edge_height(const ToothRow& row, std::size_t place, Length last_arc, Length overbite) {
  const Length arc = arc_to(row, place);
  const Length canine_arc = arc_to(row, canine);
  if (place > canine) {
    const double way = (arc - canine_arc) / (last_arc - canine_arc);
    return -row.curve_of_spee * std::sin(std::numbers::pi * std::clamp(way, 0.0, 1.0));
  }
  if (row.upper()) return 0.0 * mm;
  // Lower front teeth rise behind the upper ones; from the canine backwards the teeth meet.
  return overbite * (1.0 - arc / canine_arc);
}

std::vector<Crown> lay_out(const ToothRow& row, const ArchCurve& curve,
                           const AnatomyValues& values) {
  std::vector<Crown> right;
  const Length overjet = row.upper() ? Length{} : values.length(defaults::overjet);
  const Length overbite = values.length(defaults::overbite);
  const std::size_t last = std::min(second_molar, row.standing - 1);
  const Length last_arc = arc_to(row, last) + 0.5 * row.sizes[last].width;
  double before = 0; // how far aside the tooth before stands
  for (std::size_t place = 0; place < row.standing; ++place) {
    Crown c;
    c.tooth = row.teeth[place];
    c.size = row.sizes[place];
    c.shape = crown_shape(c.tooth, c.size, values);
    const double arc = arc_to(row, place).in(mm);
    const double step = place == 0 ? arc : arc - arc_to(row, place - 1).in(mm);
    before = side_at(curve, arc, before + 0.7 * step);
    const Length side = before * mm;
    const Vec left_along = curve.along_at(side);
    // The right half is the left one mirrored.
    c.along = {left_along.x, -left_along.y, 0};
    c.facial = outward(c.along);
    c.root = {0, 0, row.upper() ? 1.0 : -1.0};
    c.edge = {-side, curve.back_at(side) + overjet, edge_height(row, place, last_arc, overbite)};
    if (place == canine) c.edge = c.edge + c.facial * values.length(defaults::canine_tip);
    right.push_back(c);
  }
  std::vector<Crown> all(right.rbegin(), right.rend());
  for (Crown c : right) {
    c.tooth = c.tooth.other_side();
    c.edge.x = -c.edge.x;
    c.along = {c.along.x, -c.along.y, 0};
    c.facial = outward(c.along);
    all.push_back(c);
  }
  return all;
}

} // namespace

Length ArchCurve::back_at(Length side) const {
  const double x2 = std::pow(side.in(mm), 2);
  return (a * x2 * x2 * x2 + b * x2) * mm;
}

Vec ArchCurve::along_at(Length side) const { return unit({1.0, slope(*this, side.in(mm)), 0.0}); }

Length ArchCurve::side_at_arc(Length arc) const {
  return side_at(*this, arc.in(mm), arc.in(mm)) * mm;
}

namespace {

/// Newton's method from `curve`, each step halved until it comes nearer.
std::optional<ArchCurve> solve_from(ArchCurve curve, const ToothRow& row, Length canine_tip) {
  constexpr int most_steps = 30;
  constexpr int most_halvings = 6;
  constexpr double at_rest = 1e-12; // mm; the arithmetic's own noise is of this size
  const auto off = [](const Found& f) { return std::hypot(f.canine.off, f.molar.off); };
  Found at = found(row, curve, canine_tip,
                   {{arc_to(row, canine).in(mm), 0}, {arc_to(row, first_molar).in(mm), 0}});
  for (int step = 0; step < most_steps; ++step) {
    if (std::abs(at.canine.off) < at_rest && std::abs(at.molar.off) < at_rest) break;
    const Rates c = rates(curve, at.canine, canine_tip.in(mm));
    const Rates m = rates(curve, at.molar, molar_out(row));
    const double determinant = c.by_a * m.by_b - c.by_b * m.by_a;
    if (determinant == 0) return std::nullopt;
    const double a = (at.canine.off * m.by_b - at.molar.off * c.by_b) / determinant;
    const double b = (c.by_a * at.molar.off - m.by_a * at.canine.off) / determinant;
    double share = 1;
    bool nearer = false;
    for (int halving = 0; halving < most_halvings && !nearer; ++halving, share *= 0.5) {
      const ArchCurve next{curve.a - share * a, curve.b - share * b};
      const Found there = found(row, next, canine_tip, at);
      if (!(off(there) < off(at))) continue;
      curve = next;
      at = there;
      nearer = true;
    }
    if (!nearer) break;
  }
  if (!(std::abs(at.canine.off) < 1e-3 && std::abs(at.molar.off) < 1e-3)) return std::nullopt;
  return curve;
}

} // namespace

std::optional<ArchCurve> solve_arch(const ToothRow& row, Length canine_tip) {
  // A usual arch, then a wide one that opens almost like a parabola.
  for (const ArchCurve start : {ArchCurve{5e-8, 0.015}, ArchCurve{0, 0.025}}) {
    if (const auto curve = solve_from(start, row, canine_tip)) return curve;
  }
  return std::nullopt;
}

std::optional<std::vector<Crown>> lay_arch(Dentition dentition, bool upper,
                                           const AnatomyValues& values) {
  const ToothRow row = tooth_row(dentition, upper, values);
  const auto curve = solve_arch(row, values.length(defaults::canine_tip));
  if (!curve) return std::nullopt;
  return lay_out(row, *curve, values);
}

const Crown* find_crown(const std::vector<Crown>& arch, Tooth tooth) {
  const auto found =
      std::find_if(arch.begin(), arch.end(), [&](const Crown& c) { return c.tooth == tooth; });
  return found == arch.end() ? nullptr : &*found;
}

} // namespace norma::physics
