// Whether a polished or a clear retractor sends the lamp back to the lens.
#include "physics/scene/glare.hpp"

#include <algorithm>

#include "physics/mirror.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

bool is_polished_metal(const kit::Retractor* r) {
  return r != nullptr && r->material.known() && r->material.get() == kit::Material::metal &&
         r->finish.known() && r->finish.get() == kit::Finish::polished;
}

bool clear_plastic(const kit::Retractor* r) {
  return r != nullptr && r->material.known() && r->material.get() == kit::Material::plastic &&
         r->finish.known() && r->finish.get() == kit::Finish::clear;
}

/// Which of the two blades glint.
struct Glints {
  bool right = false;
  bool left = false;

  [[nodiscard]] std::optional<GlintAt> at() const {
    if (right && left) return GlintAt::both_corners;
    if (right) return GlintAt::right_corner;
    return left ? std::optional(GlintAt::left_corner) : std::nullopt;
  }
};

/// The camera as it stands, not its image: it sees the blades beside the mirror directly.
physics::Pinhole camera_behind(const physics::Eye& eye) {
  physics::Pinhole camera = eye.lens;
  camera.pupil = eye.pupil;
  if (eye.mirror) camera.axes = physics::in_mirror(eye.lens.axes, eye.mirror->normal);
  return camera;
}

} // namespace

void plan_glare(Job& job) {
  const Chosen& chosen = job.out.chosen;
  const auto shines = [](const kit::Retractor* r) {
    return is_polished_metal(r) || clear_plastic(r);
  };
  if (!shines(chosen.right_retractor) && !shines(chosen.left_retractor)) return;
  if (!job.out.scene) return job.open(question::lamp_sent_back, missing::camera_and_mouth());
  if (job.out.scene->lamp.empty()) return job.open(question::lamp_sent_back, missing::lamp_place());
  const Scene& scene = *job.out.scene;
  const physics::Mouth mouth = physics::make_mouth(scene.mouth);
  const physics::Pinhole camera = camera_behind(scene.eye);
  Glints metal;
  Glints plastic;
  Angle incidence; // the greater one, where both blades glint
  const auto look = [&](const kit::Retractor* r, const std::optional<physics::MouthCorner>& corner,
                        bool on_right) {
    if (!shines(r) || !corner) return;
    const physics::Blade usual;
    const physics::Blade blade{r->hook_radius.value_or(usual.radius),
                               r->blade_height.value_or(usual.height),
                               r->blade_bend.value_or(usual.bend)};
    const auto glint =
        physics::blade_glint(*corner, on_right, mouth, camera, scene.eye.sensor, scene.lamp, blade);
    if (!glint) return;
    Glints& of_kind = is_polished_metal(r) ? metal : plastic;
    (on_right ? of_kind.right : of_kind.left) = true;
    incidence = std::max(incidence, glint->incidence);
  };
  look(chosen.right_retractor, scene.mouth.right, true);
  look(chosen.left_retractor, scene.mouth.left, false);
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::pupil_distance,
                                         &fact::retractor_finish};
  const auto metal_at = metal.at();
  const auto plastic_at = plastic.at();
  if (!metal_at && !plastic_at) return;
  job.facts.set(fact::glare_incidence, incidence, Status::assumed);
  if (metal_at) job.facts.derive(fact::glare_at, *metal_at, from, Status::assumed);
  if (plastic_at) job.facts.derive(fact::plastic_glint_at, *plastic_at, from, Status::assumed);
}

} // namespace norma::plan
