#include "placing/room.hpp"

#include <algorithm>

#include "placing/arch_mirror.hpp"
#include "placing/surfaces.hpp"

namespace norma::placing {
namespace {

constexpr Length widest_opening = 70.0 * mm;

} // namespace

std::optional<OtherJaw> other_jaw_at(const Pose& pose, Length opening) {
  physics::MouthState state = pose.mouth.state();
  state.opened = physics::jaw_open(anatomy_of(state).jaw, opening);
  if (!state.opened) return std::nullopt;
  return physics::make_jaw(state, !state.of_upper);
}

RoomBetweenJaws room_between_jaws(const Pose& pose) {
  // From wide to narrow: a sheet that passes behind a nearly closed jaw is not a mirror in a mouth.
  RoomBetweenJaws room;
  for (Length opening = widest_opening; opening > Length{}; opening -= 1.0 * mm) {
    const auto other_jaw = other_jaw_at(pose, opening);
    if (!other_jaw) continue;
    if (!room.widest) room.widest = opening;
    if (!clears(*pose.mirror, *other_jaw)) break;
    room.least = opening;
  }
  return room;
}

std::optional<RoomAtCorners> room_at_corners(const Pose& pose) {
  const auto& right = pose.mouth.state().right;
  const auto& left = pose.mouth.state().left;
  if (!right || !left) return std::nullopt;
  const physics::PlaneMirror& m = *pose.mirror;
  // Where the sheet is as far back as the corners: it narrows from its wide end forwards.
  const Length back = 0.5 * (right->back + left->back);
  const double share = std::clamp(0.5 + (back - m.middle.y) / (m.length * m.along.y), 0.0, 1.0);
  return RoomAtCorners{m.width + (m.narrow_end - m.width) * share + 2.0 * abs(m.middle.x),
                       right->side + left->side};
}

bool mirror_fits(const Setting& setting, const Pose& pose) {
  const bool over_arch = setting.mirror && setting.mirror->use == MirrorUse::over_arch;
  if (!over_arch || !setting.opening) return true;
  const auto other_jaw = other_jaw_at(pose, *setting.opening);
  const auto corners = room_at_corners(pose);
  return other_jaw && clears(*pose.mirror, *other_jaw) &&
         (!corners || corners->mirror <= corners->between);
}

std::optional<Angle> flatter_that_fits(const Setting& setting, const Pose& pose) {
  constexpr Angle flattest = 20.0 * degree;
  constexpr Angle step = 5.0 * degree;
  const auto other_jaw = other_jaw_at(pose, *setting.opening);
  if (!other_jaw) return std::nullopt;
  for (Angle a = *setting.mirror->opened - step; a >= flattest; a -= step) {
    const Pose other = opened_otherwise(setting, pose, a);
    if (!clears(*other.mirror, *other_jaw)) continue;
    if (!look_that_is(shows_all, setting, other)) return std::nullopt; // flatter still hides more
    return a;
  }
  return std::nullopt;
}

} // namespace norma::placing
