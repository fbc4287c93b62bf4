#include "physics/pinhole.hpp"

namespace norma::physics {

std::optional<SensorPoint> project(Point p, const Pinhole& camera) {
  const Point from_pupil = p - camera.pupil;
  const Length depth = along(from_pupil, camera.axes.forward);
  if (depth <= 0.0 * mm) return std::nullopt;
  const double scale = camera.ratio.value() * (camera.focus_distance / depth);
  return SensorPoint{along(from_pupil, camera.axes.right) * scale,
                     along(from_pupil, camera.axes.up) * scale};
}

} // namespace norma::physics
