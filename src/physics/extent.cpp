#include "physics/extent.hpp"

#include <algorithm>

namespace norma::physics {

std::optional<Extent> extent_of(std::span<const SurfacePoint> points, Point aim, const Axes& axes,
                                std::optional<Length> pupil) {
  std::optional<Extent> out;
  for (const SurfacePoint& p : points) {
    const Point from_aim = p.at - aim;
    const Length away = along(from_aim, axes.forward);
    const double scale = pupil ? *pupil / (*pupil + away) : 1.0;
    const Length right = along(from_aim, axes.right) * scale;
    const Length up = along(from_aim, axes.up) * scale;
    if (!out) out = Extent{-right, right, up, -up, -away, away};
    out->left = std::max(out->left, -right);
    out->right = std::max(out->right, right);
    out->up = std::max(out->up, up);
    out->down = std::max(out->down, -up);
    out->towards = std::max(out->towards, -away);
    out->away = std::max(out->away, away);
  }
  return out;
}

} // namespace norma::physics
