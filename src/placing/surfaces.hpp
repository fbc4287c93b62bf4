// Points of the surfaces that a view names, where they stand in the frame of the jaw that is shown.
#pragma once

#include <algorithm>
#include <optional>
#include <span>

#include "physics/extent.hpp"
#include "placing/setting.hpp"

namespace norma::placing {

/// The patient's; the mean adult's where the state names none.
const physics::Anatomy& anatomy_of(const physics::MouthState& mouth);
/// The crown of a tooth that stands, with the teeth together; null where it does not stand.
const physics::Crown* crown_of(const physics::MouthState& mouth, Tooth tooth);
/// The grid of 5 x 5 points of a surface, with the teeth together; empty where the tooth does not
/// stand. Lives as long as the anatomy.
std::span<const physics::SurfacePoint> points_of(const physics::MouthState& mouth, Wanted surface);
/// The middle of a tooth's face.
physics::Point face_centre(const physics::Crown& crown, Surface surface);

/// How far surfaces reach in the mouth, seen in plan.
struct Bounds {
  Length right; // the least x
  Length left;  // the greatest
  Length back;  // behind the incisors; 0 where all lie before them

  [[nodiscard]] Length side() const { return std::max(abs(right), abs(left)); }
};
/// All 0 where nothing is wanted.
Bounds bounds_of(const Setting& setting);

/// Reach of surfaces from `aim` (physics::Extent), all of them taken together; nothing where they
/// have no points. `pupil`: distance of the entrance pupil from the aim, for perspective.
std::optional<physics::Extent> extent_of(const physics::MouthState& mouth,
                                         std::span<const Wanted> surfaces, physics::Point aim,
                                         const physics::Axes& axes, std::optional<Length> pupil);
/// The middle of surfaces as they lie in a picture seen from afar, and of their depth; nothing
/// where they have no points.
std::optional<physics::Point> middle_of(const physics::MouthState& mouth,
                                        std::span<const Wanted> surfaces,
                                        const physics::Axes& axes);
/// The middle of a crown, half way up its axis.
physics::Point middle_of(const physics::Crown& crown);
/// What the picture is centred on; nothing where the first or the last tooth of it does not stand.
std::optional<physics::Point> middle_of(const physics::MouthState& mouth, const Centred& centred,
                                        const physics::Axes& axes);

} // namespace norma::placing
