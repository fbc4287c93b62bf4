#include "placing/setting.hpp"

#include <cmath>

#include "placing/surfaces.hpp"

namespace norma::placing {
namespace {

/// The faces that the camera's image looks square at, taken together; nothing where it stands by
/// angles of its own.
std::optional<physics::Vec> looked_at_squarely(const Setting& setting) {
  if (!setting.mirror || setting.mirror->use == MirrorUse::over_arch) return std::nullopt;
  physics::Vec faces;
  for (const Wanted& w : setting.wanted) {
    if (const physics::Crown* crown = crown_of(setting.mouth, w.tooth))
      faces = faces + crown->facial;
  }
  return setting.mirror->use == MirrorUse::in_cheek ? faces : -faces;
}

} // namespace

SquareLook square_to(physics::Vec faces) {
  SquareLook out;
  out.azimuth = std::atan2(-faces.x, -faces.y) * radian;
  out.axes = physics::camera_axes(out.azimuth, Angle{}, Angle{});
  out.axes.right = -out.axes.right;
  return out;
}

std::optional<Setting> of_mouth(const Setting& setting, physics::MouthState mouth,
                                std::optional<Length> opening) {
  Setting out = setting;
  out.mouth = std::move(mouth);
  out.opening = opening;
  out.mouth.opened.reset();
  if (opening) {
    out.mouth.opened = physics::jaw_open(anatomy_of(out.mouth).jaw, *opening);
    if (!out.mouth.opened) return std::nullopt;
  }
  if (const auto faces = looked_at_squarely(out)) {
    const SquareLook look = square_to(*faces);
    out.camera.azimuth = look.azimuth;
    out.camera.axes = look.axes;
  }
  const auto aim = out.camera.aimed_at ? middle_of(out.mouth, *out.camera.aimed_at, out.camera.axes)
                                       : middle_of(out.mouth, out.wanted, out.camera.axes);
  if (!aim) return std::nullopt;
  out.camera.aim = *aim;
  return out;
}

} // namespace norma::placing
