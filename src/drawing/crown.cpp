#include "drawing/crown.hpp"

#include <cmath>
#include <numbers>

namespace norma::drawing {
namespace {

using physics::Crown;
using physics::Tooth;

struct Form {
  double outer;  // exponent of the superellipse on the side of lips or cheek
  double inner;  // and of the tongue
  double narrow; // width on the tongue's side against the face's
  double skew;   // how far the front corner stands out on the cheek's side
};
Form form_of(Tooth tooth) {
  const bool upper = tooth.is_upper();
  switch (kind_of(tooth)) {
  case Kind::incisor: return {3.2, 1.9, upper ? 0.62 : 0.70, 0};
  case Kind::canine: return {2.0, 1.8, 0.60, 0};
  case Kind::premolar: return {2.3, 2.2, upper ? 0.86 : 0.80, 0};
  case Kind::molar: break;
  }
  return upper ? Form{2.9, 2.6, 0.92, 0.08} : Form{3.0, 2.8, 0.94, -0.03};
}

/// Through three values at 0, `knot` and 1, without a corner.
double eased(double t, double knot, double at_0, double at_knot, double at_1) {
  if (t < knot) return at_0 + (at_knot - at_0) * std::sin(0.5 * std::numbers::pi * t / knot);
  const double s = (t - knot) / (1 - knot);
  return at_knot + (at_1 - at_knot) * (0.5 - 0.5 * std::cos(std::numbers::pi * s));
}

/// How far the outline leaves the level, mm towards the root: necks are scalloped, edges rounded, a
/// canine has a tip.
double off_level(const Crown& crown, double up, double aside) {
  const double x = std::abs(aside);
  if (up > 0.8) return -(up - 0.8) / 0.2 * 1.3 * x * x;
  if (up >= 0.15) return 0;
  const double near_edge = (0.15 - up) / 0.15;
  const double rounded = 0.55 * x * x * x * x;
  const double tip = kind_of(crown.tooth) == Kind::canine ? 1.6 * x : 0;
  return near_edge * (rounded + tip);
}

} // namespace

Kind kind_of(Tooth tooth) {
  const int n = tooth.position();
  if (n <= 2) return Kind::incisor;
  if (n == 3) return Kind::canine;
  return n <= 5 && !tooth.is_primary() ? Kind::premolar : Kind::molar;
}

physics::Point on_crown(const Crown& crown, Angle around, double up, double out) {
  const Form form = form_of(crown.tooth);
  const physics::CrownSize& size = crown.size;
  const Length half_width = 0.5 * mm *
                            eased(up, crown.shape.contact_height, 0.90 * size.width.in(mm),
                                  size.width.in(mm), size.width_at_neck.in(mm));
  const Length half_depth = 0.5 * mm *
                            eased(up, crown.shape.crest_height, crown.shape.edge_depth.in(mm),
                                  size.depth.in(mm), size.depth_at_neck.in(mm));
  const double c = cos(around);
  const double s = sin(around);
  const double p = s >= 0 ? form.outer : form.inner;
  const double radius = std::pow(std::pow(std::abs(c), p) + std::pow(std::abs(s), p), -1.0 / p);
  double aside = radius * c;
  const double outwards = radius * s;
  if (outwards < 0) aside *= 1 + (form.narrow - 1) * -outwards;
  aside += (crown.tooth.is_right() ? 1 : -1) * form.skew * outwards;
  const Length level = up * size.height + off_level(crown, up, aside) * mm;
  return crown.edge + crown.along * (out * aside * half_width) +
         crown.facial * (out * outwards * half_depth) + crown.root * level;
}

} // namespace norma::drawing
