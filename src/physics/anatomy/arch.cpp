#include "physics/anatomy/arch.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "physics/defaults.hpp"

namespace norma::physics {
namespace {

constexpr int last_position = 8;

Tooth right_tooth(bool upper, int position) {
  return *Tooth::from_iso((upper ? 10 : 40) + position);
}

/// Length of the arch from the midline to the middle of a tooth.
Length arc_to(bool upper, int position) {
  Length arc;
  for (int p = 1; p < position; ++p)
    arc += crown_size(right_tooth(upper, p)).width;
  return arc + 0.5 * crown_size(right_tooth(upper, position)).width;
}

/// Towards the lips or cheek: square to the curve, away from the mouth.
Vec outward(Vec along) { return {along.y, -along.x, 0}; }

double slope(const ArchCurve& c, double x) { return 6.0 * c.a * std::pow(x, 5) + 2.0 * c.b * x; }

/// What is off at both landmarks, in mm of half width.
struct Miss {
  double canine;
  double molar;
};
Miss miss(bool upper, ArchWidths widths, const ArchCurve& curve) {
  const Length canine_on_curve = curve.side_at_arc(arc_to(upper, 3));
  const Length canine = canine_on_curve + defaults::canine_tip.value * mm *
                                              outward(curve.along_at(canine_on_curve)).x;
  const Length middle = curve.side_at_arc(arc_to(upper, 6));
  const Length half_depth = 0.5 * crown_size(right_tooth(upper, 6)).depth;
  const Length molar = middle + half_depth * outward(curve.along_at(middle)).x;
  return {(canine - widths.canines / 2.0).in(mm), (molar - widths.molars / 2.0).in(mm)};
}

/// Height of the biting edges over the plane through the upper incisors' edges.
Length edge_height(bool upper, int position, Length arc, Length last_arc) {
  const Length dip = defaults::curve_of_spee.value * mm;
  const Length canine = arc_to(upper, 3);
  if (position > 3) {
    const double way = (arc - canine) / (last_arc - canine);
    return -dip * std::sin(std::numbers::pi * std::clamp(way, 0.0, 1.0));
  }
  if (upper) return 0.0 * mm;
  // Lower front teeth rise behind the upper ones; from the canine backwards the teeth meet.
  return defaults::overbite.value * mm * (1.0 - arc / canine);
}

std::vector<Crown> lay_out(bool upper, const ArchCurve& curve) {
  std::vector<Crown> right;
  const Length last_arc = arc_to(upper, 7) + 0.5 * crown_size(right_tooth(upper, 7)).width;
  for (int position = 1; position <= last_position; ++position) {
    Crown c;
    c.tooth = right_tooth(upper, position);
    c.size = crown_size(c.tooth);
    const Length arc = arc_to(upper, position);
    const Length side = curve.side_at_arc(arc);
    const Vec left_along = curve.along_at(side);
    // The right half is the left one mirrored.
    c.along = {left_along.x, -left_along.y, 0};
    c.facial = outward(c.along);
    c.root = {0, 0, upper ? 1.0 : -1.0};
    c.edge = {-side, curve.back_at(side) + (upper ? 0.0 : defaults::overjet.value) * mm,
              edge_height(upper, position, arc, last_arc)};
    if (position == 3) c.edge = c.edge + c.facial * (defaults::canine_tip.value * mm);
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

ArchWidths adult_widths(bool upper) {
  return upper ? ArchWidths{defaults::upper_canine_width.value * mm,
                            defaults::upper_molar_width.value * mm}
               : ArchWidths{defaults::lower_canine_width.value * mm,
                            defaults::lower_molar_width.value * mm};
}

} // namespace

Length ArchCurve::back_at(Length side) const {
  const double x = side.in(mm);
  return (a * std::pow(x, 6) + b * x * x) * mm;
}

Vec ArchCurve::along_at(Length side) const { return unit({1.0, slope(*this, side.in(mm)), 0.0}); }

Length ArchCurve::side_at_arc(Length arc) const {
  // dx/ds = 1 / sqrt(1 + y'^2), by Runge and Kutta's fourth-order rule in steps of half a mm.
  const auto rate = [&](double x) { return 1.0 / std::sqrt(1.0 + std::pow(slope(*this, x), 2)); };
  const double whole = arc.in(mm);
  const int steps = std::max(1, static_cast<int>(std::ceil(whole / 0.5)));
  const double h = whole / steps;
  double x = 0;
  for (int i = 0; i < steps; ++i) {
    const double k1 = rate(x);
    const double k2 = rate(x + 0.5 * h * k1);
    const double k3 = rate(x + 0.5 * h * k2);
    const double k4 = rate(x + h * k3);
    x += h / 6.0 * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  return x * mm;
}

std::optional<ArchCurve> solve_arch(bool upper, ArchWidths widths) {
  ArchCurve curve{5e-8, 0.015};
  for (int step = 0; step < 30; ++step) {
    const Miss at = miss(upper, widths, curve);
    const double da = 1e-11;
    const double db = 1e-6;
    const Miss by_a = miss(upper, widths, {curve.a + da, curve.b});
    const Miss by_b = miss(upper, widths, {curve.a, curve.b + db});
    const double ca = (by_a.canine - at.canine) / da;
    const double ma = (by_a.molar - at.molar) / da;
    const double cb = (by_b.canine - at.canine) / db;
    const double mb = (by_b.molar - at.molar) / db;
    const double determinant = ca * mb - cb * ma;
    if (determinant == 0) return std::nullopt;
    curve.a -= (at.canine * mb - at.molar * cb) / determinant;
    curve.b -= (ca * at.molar - ma * at.canine) / determinant;
  }
  const Miss rest = miss(upper, widths, curve);
  if (!(std::abs(rest.canine) < 1e-3 && std::abs(rest.molar) < 1e-3)) return std::nullopt;
  return curve;
}

const std::vector<Crown>& adult_arch(bool upper) {
  // That both curves exist for the published widths is held by a test.
  static const std::vector<Crown> upper_arch = lay_out(true, *solve_arch(true, adult_widths(true)));
  static const std::vector<Crown> lower_arch =
      lay_out(false, *solve_arch(false, adult_widths(false)));
  return upper ? upper_arch : lower_arch;
}

Length adult_arch_depth(bool upper) {
  const std::vector<Crown>& arch = adult_arch(upper);
  const Crown& molar = *find_crown(arch, right_tooth(upper, 6));
  const Crown& incisor = *find_crown(arch, right_tooth(upper, 1));
  const Length molar_point = molar.edge.y + (0.5 * molar.size.depth) * molar.facial.y;
  const Length incisor_point = incisor.edge.y + (0.5 * incisor.size.depth) * incisor.facial.y;
  return molar_point - incisor_point;
}

const Crown* find_crown(const std::vector<Crown>& arch, Tooth tooth) {
  const auto found =
      std::find_if(arch.begin(), arch.end(), [&](const Crown& c) { return c.tooth == tooth; });
  return found == arch.end() ? nullptr : &*found;
}

} // namespace norma::physics
