// Whether an arch mirror has room in the mouth.
#include <algorithm>

#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

constexpr Length widest_opening = 70.0 * mm;

/// The jaw that is not shown.
std::vector<physics::Box> opposing(const physics::MouthState& state) {
  std::vector<physics::Box> out;
  const physics::Mouth mouth = physics::make_mouth(state);
  for (const physics::Box& b : mouth.boxes) {
    const bool of_jaw = b.body == physics::Body::crown || b.body == physics::Body::gum;
    if (of_jaw && b.tooth.is_upper() != state.of_upper) out.push_back(b);
  }
  return out;
}

/// A mirror that is opened less needs less room; it must still show all.
void try_flatter(Job& job, const Setting& setting, Length opening) {
  constexpr Angle flattest = 20.0 * degree;
  for (Angle a = *job.facts.get(fact::mirror_angle) - angle_step; a >= flattest; a -= angle_step) {
    const Setting other = opened_otherwise(job, setting, a);
    if (!clears(other, opening)) continue;
    if (!shows_all(look_at(other))) return; // flatter still hides more
    job.facts.derive(fact::mirror_angle_that_fits, a, {&fact::mirror_angle, &fact::mouth_opening},
                     Status::assumed);
    return;
  }
}

} // namespace

bool clears(const Setting& setting, Length opening) {
  physics::MouthState state = setting.mouth;
  state.opened = physics::jaw_open(state.anatomy->jaw, opening);
  return state.opened && !physics::runs_into(*setting.mirror, opposing(state));
}

void fit_mirror(Job& job, const Setting& setting) {
  const std::vector<const FactRow*> from{&fact::mirror, &fact::mirror_angle};
  // From wide to narrow: a sheet that passes behind a nearly closed jaw is not a mirror in a mouth.
  std::optional<Length> least;
  std::optional<Length> widest; // that this jaw comes to
  for (Length opening = widest_opening; opening > Length{}; opening -= 1.0 * mm) {
    if (!physics::jaw_open(setting.mouth.anatomy->jaw, opening)) continue;
    if (!widest) widest = opening;
    if (!clears(setting, opening)) break;
    least = opening;
  }
  if (least) job.facts.derive(fact::opening_for_mirror, *least, from, Status::assumed);
  if (!least && widest)
    job.facts.derive(fact::mirror_at_no_opening, *widest, from, Status::assumed);
  const auto opening = job.facts.get(fact::mouth_opening);
  const auto needed = job.facts.get(fact::opening_for_mirror);
  if (opening && (!needed || *needed > *opening)) try_flatter(job, setting, *opening);
  if (const auto room = room_at_corners(setting)) {
    job.facts.derive(fact::mirror_at_corners, room->mirror, from);
    job.facts.set(fact::between_corners, room->between, Status::assumed);
  }
}

std::optional<RoomAtCorners> room_at_corners(const Setting& setting) {
  const auto& right = setting.mouth.right;
  const auto& left = setting.mouth.left;
  if (!right || !left) return std::nullopt;
  const physics::PlaneMirror& m = *setting.mirror;
  // Where the sheet is as far back as the corners: it narrows from its wide end forwards.
  const Length back = 0.5 * (right->back + left->back);
  const double share = std::clamp(0.5 + (back - m.middle.y) / (m.length * m.along.y), 0.0, 1.0);
  return RoomAtCorners{m.width + (m.narrow_end - m.width) * share + 2.0 * abs(m.middle.x),
                       right->side + left->side};
}

} // namespace norma::plan
