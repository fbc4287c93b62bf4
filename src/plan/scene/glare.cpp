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

std::optional<physics::Blade> shining_blade(const Job& job, const kit::Retractor* r) {
  if (!is_polished_metal(r) && !clear_plastic(r)) return std::nullopt;
  namespace d = physics::defaults;
  return physics::Blade{job.facts.take({d::blade_radius, r->hook_radius}) * mm,
                        job.facts.take({d::blade_height, r->blade_height}) * mm,
                        r->blade_bend.known() ? r->blade_bend.get()
                                              : job.facts.take(d::blade_bend) * degree};
}

std::optional<GlintAt> glint_at(bool right, bool left) {
  if (right && left) return GlintAt::both_corners;
  if (right) return GlintAt::right_corner;
  return left ? std::optional(GlintAt::left_corner) : std::nullopt;
}

} // namespace

void plan_glare(Job& job) {
  const kit::Retractor* right = job.right_retractor();
  const kit::Retractor* left = job.left_retractor();
  const placing::ShiningBlades blades{shining_blade(job, right), shining_blade(job, left)};
  if (!blades.right && !blades.left) return;
  if (!job.out.scene) return job.open(question::lamp_sent_back, missing::camera_and_mouth());
  if (job.out.scene->lamp.empty()) return job.open(question::lamp_sent_back, missing::lamp_place());
  job.facts.use(job.out.lit_read);
  const Scene& scene = *job.out.scene;
  const placing::Glints glints = placing::glints_of(scene.mouth, scene.eye, scene.lamp, blades);
  if (!glints.right && !glints.left) return;
  Angle incidence; // the greater one, where both blades glint
  for (const auto& glint : {glints.right, glints.left}) {
    if (glint) incidence = std::max(incidence, glint->incidence);
  }
  const auto at = [&](bool (*of_kind)(const kit::Retractor*)) {
    return glint_at(glints.right && of_kind(right), glints.left && of_kind(left));
  };
  job.facts.put(fact::glare_incidence, incidence);
  if (const auto metal_at = at(is_polished_metal)) job.facts.put(fact::glare_at, *metal_at);
  if (const auto plastic_at = at(clear_plastic)) job.facts.put(fact::plastic_glint_at, *plastic_at);
}

} // namespace norma::plan
