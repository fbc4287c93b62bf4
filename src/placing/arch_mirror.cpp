#include "placing/arch_mirror.hpp"

#include "physics/mirror.hpp"
#include "placing/outline.hpp"
#include "placing/room.hpp"
#include "placing/surfaces.hpp"

namespace norma::placing {
namespace {

/// How far to the patient's left a mirror moves so that it lies over teeth of one side (one incisor
/// of the other may be named, too); none where both sides must show, or where it is wide enough as
/// it lies.
Length moved_to_one_side(const Bounds& bounds, Length width, Length gap) {
  constexpr Length an_incisor = 10.0 * mm;
  constexpr Length alike = 1.0 * mm;
  if (bounds.right < -an_incisor && bounds.left > an_incisor) return {};
  if (abs(bounds.left + bounds.right) < alike) return {};
  // The outermost of them stand farthest back, at the end that goes in.
  const Length reach = 0.5 * width - gap;
  if (bounds.left > -bounds.right) return std::max(Length{}, bounds.left - reach);
  return -std::max(Length{}, -bounds.right - reach);
}

} // namespace

physics::PlaneMirror arch_mirror(const Setting& setting, Angle opened,
                                 const physics::PlaneMirror& outline) {
  const bool upper = setting.mouth.of_upper;
  const Bounds bounds = bounds_of(setting);
  const Length gap = setting.limits.mirror_gap;
  physics::PlaneMirror m = outline;
  const physics::Vec normal = physics::arch_mirror_normal(upper, opened);
  m.normal = normal.y > 0 ? -normal : normal; // towards the teeth, which stand in front of it
  m.across = {1, 0, 0};
  m.along = {0, -cos(opened), upper ? -sin(opened) : sin(opened)};
  m.middle =
      physics::Point{moved_to_one_side(bounds, outline.width, gap), bounds.back + gap, Length{}} +
      m.along * (0.5 * m.length);
  return m;
}

Pose with_arch_mirror(const Setting& setting, const Pose& pose, const Sheet& sheet) {
  Pose out = pose;
  out.mirror = arch_mirror(setting, *setting.mirror->opened, outline_of(sheet));
  return out;
}

Pose opened_otherwise(const Setting& setting, const Pose& pose, Angle opened) {
  Pose other = pose;
  other.mirror = arch_mirror(setting, opened, *pose.mirror);
  if (setting.camera.stays) {
    const physics::Axes camera = physics::in_mirror(pose.axes, pose.mirror->normal);
    other.axes = physics::in_mirror(camera, other.mirror->normal);
  }
  return other;
}

std::optional<Angle> nearest_good_angle(const Setting& setting, const Pose& pose,
                                        const std::function<bool(const Pose&)>& good) {
  constexpr Angle flattest = 20.0 * degree;
  constexpr Angle steepest = 70.0 * degree;
  constexpr Angle step = 5.0 * degree;
  const Angle given = *setting.mirror->opened;
  std::optional<OtherJaw> other_jaw;
  if (setting.opening) {
    other_jaw = other_jaw_at(pose, *setting.opening);
    if (!other_jaw) return std::nullopt;
  }
  for (Angle off = step; off <= steepest; off += step) {
    for (const Angle a : {given + off, given - off}) {
      if (a < flattest || a > steepest) continue;
      const Pose other = opened_otherwise(setting, pose, a);
      if ((!other_jaw || clears(*other.mirror, *other_jaw)) && good(other)) return a;
    }
  }
  return std::nullopt;
}

} // namespace norma::placing
