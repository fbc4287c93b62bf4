#include "placing/glare.hpp"

#include "physics/mirror.hpp"

namespace norma::placing {
namespace {

physics::Pinhole camera_behind(const physics::Eye& eye) {
  physics::Pinhole camera = eye.lens;
  camera.pupil = eye.pupil;
  if (eye.mirror) camera.axes = physics::in_mirror(eye.lens.axes, eye.mirror->normal);
  return camera;
}

} // namespace

Glints glints_of(const physics::MouthState& mouth, const physics::Eye& eye,
                 std::span<const physics::Point> lamp, const ShiningBlades& blades) {
  const physics::Mouth built = physics::make_mouth(mouth);
  const physics::Pinhole camera = camera_behind(eye);
  Glints out;
  if (blades.right && mouth.right)
    out.right =
        physics::blade_glint(*mouth.right, true, built, camera, eye.sensor, lamp, *blades.right);
  if (blades.left && mouth.left)
    out.left =
        physics::blade_glint(*mouth.left, false, built, camera, eye.sensor, lamp, *blades.left);
  return out;
}

} // namespace norma::placing
