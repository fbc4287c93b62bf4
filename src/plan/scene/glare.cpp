// Whether a polished or a clear retractor sends the lamp back to the lens.
#include "placing/glare.hpp"

#include <algorithm>

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

std::optional<physics::Blade> shining_blade(const kit::Retractor* r) {
  if (!is_polished_metal(r) && !clear_plastic(r)) return std::nullopt;
  const physics::Blade usual;
  return physics::Blade{r->hook_radius.value_or(usual.radius),
                        r->blade_height.value_or(usual.height), r->blade_bend.value_or(usual.bend)};
}

std::optional<GlintAt> glint_at(bool right, bool left) {
  if (right && left) return GlintAt::both_corners;
  if (right) return GlintAt::right_corner;
  return left ? std::optional(GlintAt::left_corner) : std::nullopt;
}

} // namespace

void plan_glare(Job& job) {
  const Chosen& chosen = job.out.chosen;
  const placing::ShiningBlades blades{shining_blade(chosen.right_retractor),
                                      shining_blade(chosen.left_retractor)};
  if (!blades.right && !blades.left) return;
  if (!job.out.scene) return job.open(question::lamp_sent_back, missing::camera_and_mouth());
  if (job.out.scene->lamp.empty()) return job.open(question::lamp_sent_back, missing::lamp_place());
  const Scene& scene = *job.out.scene;
  const placing::Glints glints = placing::glints_of(scene.mouth, scene.eye, scene.lamp, blades);
  if (!glints.right && !glints.left) return;
  Angle incidence; // the greater one, where both blades glint
  for (const auto& glint : {glints.right, glints.left}) {
    if (glint) incidence = std::max(incidence, glint->incidence);
  }
  const auto at = [&](bool (*of_kind)(const kit::Retractor*)) {
    return glint_at(glints.right && of_kind(chosen.right_retractor),
                    glints.left && of_kind(chosen.left_retractor));
  };
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::pupil_distance,
                                         &fact::retractor_finish};
  job.facts.set(fact::glare_incidence, incidence, Status::assumed);
  if (const auto metal_at = at(is_polished_metal))
    job.facts.derive(fact::glare_at, *metal_at, from, Status::assumed);
  if (const auto plastic_at = at(clear_plastic))
    job.facts.derive(fact::plastic_glint_at, *plastic_at, from, Status::assumed);
}

} // namespace norma::plan
