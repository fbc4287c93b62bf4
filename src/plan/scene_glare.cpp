// Whether a polished retractor sends the lamp back to the lens.
#include "physics/scene/glare.hpp"

#include <algorithm>

#include "physics/mirror.hpp"
#include "plan/scene.hpp"

namespace norma::plan {
namespace {

bool polished_metal(const kit::Retractor* r) {
  return r != nullptr && r->material.known() && r->material.get() == kit::Material::metal &&
         r->finish.known() && r->finish.get() == kit::Finish::polished;
}

/// The camera as it stands, not its image: it sees the blades beside the mirror directly.
physics::Pinhole camera_itself(const physics::Eye& eye) {
  physics::Pinhole camera = eye.lens;
  camera.pupil = eye.pupil;
  if (eye.mirror) camera.axes = physics::in_mirror(eye.lens.axes, eye.mirror->normal);
  return camera;
}

} // namespace

void plan_glare(Job& job) {
  const bool right = polished_metal(job.out.chosen.right_retractor);
  const bool left = polished_metal(job.out.chosen.left_retractor);
  if (!right && !left) return;
  constexpr const char* question = "whether the polished retractor sends the lamp back to the lens";
  if (!job.out.scene) return job.open(question, "where camera and mouth stand to each other");
  if (job.out.scene->lamp.empty()) return job.open(question, "where the lamp stands");
  const Scene& scene = *job.out.scene;
  const auto mouth = physics::make_mouth(scene.mouth);
  if (!mouth) return;
  const physics::Pinhole camera = camera_itself(scene.eye);
  std::string at;
  Angle incidence; // the greater one, where both blades glint
  const auto look = [&](bool polished, const std::optional<physics::MouthCorner>& corner,
                        bool on_right) {
    if (!polished || !corner) return;
    const auto glint =
        physics::blade_glint(*corner, on_right, *mouth, camera, scene.eye.sensor, scene.lamp);
    if (!glint) return;
    at += at.empty() ? "" : " and ";
    at += on_right ? "the right corner of the mouth" : "the left corner of the mouth";
    incidence = std::max(incidence, glint->incidence);
  };
  look(right, scene.mouth.right, true);
  look(left, scene.mouth.left, false);
  if (!at.empty()) {
    job.facts.set(fact::glare_incidence, incidence, Status::assumed);
    job.facts.derive(fact::glare_at, at,
                     {&fact::azimuth, &fact::pupil_distance, &fact::retractor_finish},
                     Status::assumed);
  }
}

} // namespace norma::plan
