#include "physics/mirror.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

namespace norma::physics {
namespace {

/// Fresnel's equations from air on a medium with the index n, which is complex in a metal.
Share fresnel(std::complex<double> n, Angle incidence) {
  const double cos_in = cos(incidence);
  const std::complex<double> sin_out = sin(incidence) / n;
  const std::complex<double> cos_out = std::sqrt(1.0 - sin_out * sin_out);
  const std::complex<double> s = (cos_in - n * cos_out) / (cos_in + n * cos_out);
  const std::complex<double> p = (cos_out - n * cos_in) / (cos_out + n * cos_in);
  return Share{0.5 * (std::norm(s) + std::norm(p))};
}

} // namespace

Length ghost_offset(Length glass, RefractiveIndex n, Angle incidence) {
  const double s = sin(incidence);
  return glass * (sin(2.0 * incidence) / std::sqrt(n.value() * n.value() - s * s));
}

Share front_reflection(RefractiveIndex n, Angle incidence) { return fresnel(n.value(), incidence); }

Share metal_reflection(RefractiveIndex n, double k, Angle incidence) {
  return fresnel({n.value(), k}, incidence);
}

Stops loss_of_one_pass(Share reflectance) { return -std::log2(reflectance.value()) * stop; }
Stops loss_of_picture(Share reflectance) { return 2.0 * loss_of_one_pass(reflectance); }

Angle camera_elevation(Angle opened) { return 90.0 * degree - 2.0 * opened; }

MirrorNeed mirror_needed(std::span<const ArchPoint> points, Length hinge, Angle opened,
                         Length pupil, Length centre_back) {
  MirrorNeed need;
  const double slope = tan(opened);
  for (const ArchPoint& p : points) {
    const double share = (hinge - p.back) * slope / (pupil + (centre_back - p.back) * slope);
    const Length side = abs(p.side) * (1.0 - share);
    const Length back = p.back + share * (centre_back - p.back);
    need.width = std::max(need.width, 2.0 * side);
    need.length = std::max(need.length, (hinge - back) / cos(opened));
  }
  return need;
}

} // namespace norma::physics
