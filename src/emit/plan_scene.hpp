// The scene of a view as a plan file has it, and what of it lies in the picture.
#pragma once

#include "plan/plan.hpp"
#include "planfile/scene.hpp"

namespace norma::emit {

std::vector<planfile::Shown> file_shown(const std::vector<physics::Shown>& shown);
planfile::Scene file_scene(const plan::Scene& scene, const physics::Mouth& mouth);
planfile::Viewfinder file_viewfinder(const plan::Scene& scene, const physics::Mouth& mouth);

} // namespace norma::emit
