// Whether an arch mirror has room in the mouth.
#include "placing/room.hpp"

#include "plan/scene/scene.hpp"

namespace norma::plan {

void fit_mirror(Job& job, const Placed& view) {
  const std::vector<const FactRow*> from{&fact::mirror, &fact::mirror_angle};
  const placing::RoomBetweenJaws jaws = placing::room_between_jaws(view.pose);
  if (jaws.least) job.facts.derive(fact::opening_for_mirror, *jaws.least, from, Status::assumed);
  if (!jaws.least && jaws.widest)
    job.facts.derive(fact::mirror_at_no_opening, *jaws.widest, from, Status::assumed);
  const auto& opening = view.setting.opening;
  if (opening && (!jaws.least || *jaws.least > *opening)) {
    if (const auto flatter = placing::flatter_that_fits(view.setting, view.pose))
      job.facts.derive(fact::mirror_angle_that_fits, *flatter,
                       {&fact::mirror_angle, &fact::mouth_opening}, Status::assumed);
  }
  if (const auto corners = placing::room_at_corners(view.pose)) {
    job.facts.derive(fact::mirror_at_corners, corners->mirror, from);
    job.facts.set(fact::between_corners, corners->between, Status::assumed);
  }
}

} // namespace norma::plan
