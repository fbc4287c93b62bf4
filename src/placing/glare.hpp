// Whether a retractor's blade at a corner of the mouth sends the lamp back to the lens.
#pragma once

#include "physics/scene/glare.hpp"
#include "placing/pose.hpp"

namespace norma::placing {

/// The blades that shine; nothing on a side where none does.
struct ShiningBlades {
  std::optional<physics::Blade> right;
  std::optional<physics::Blade> left;
};
struct Glints {
  std::optional<physics::Glint> right;
  std::optional<physics::Glint> left;
};
/// By the camera as it stands, not its image: it sees the blades beside a mirror directly. Nothing
/// on a side where no retractor holds the corner (physics::blade_glint).
Glints glints_of(const physics::MouthState& mouth, const physics::Eye& eye,
                 std::span<const physics::Point> lamp, const ShiningBlades& blades);

} // namespace norma::placing
