#include "physics/mirror.hpp"

#include <algorithm>
#include <cmath>

namespace norma::physics {

Length ghost_offset(Length glass, RefractiveIndex n, Angle incidence) {
  const double s = sin(incidence);
  return glass * (sin(2.0 * incidence) / std::sqrt(n.value() * n.value() - s * s));
}

Share front_reflection(RefractiveIndex n, Angle incidence) {
  const double cos_in = cos(incidence);
  const double sin_out = sin(incidence) / n.value();
  const double cos_out = std::sqrt(1.0 - sin_out * sin_out);
  const double s = (cos_in - n.value() * cos_out) / (cos_in + n.value() * cos_out);
  const double p = (cos_out - n.value() * cos_in) / (cos_out + n.value() * cos_in);
  return Share{0.5 * (s * s + p * p)};
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
