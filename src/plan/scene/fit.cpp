// Whether an arch mirror has room in the mouth.
#include "placing/room.hpp"

#include "plan/scene/scene.hpp"

namespace norma::plan {

void fit_mirror(Job& job, const Placed& view) {
  const Recording one(job.facts);
  const placing::RoomBetweenJaws jaws = placing::room_between_jaws(view.pose);
  if (jaws.least) job.facts.put(fact::opening_for_mirror, *jaws.least);
  if (!jaws.least && jaws.widest) job.facts.put(fact::mirror_at_no_opening, *jaws.widest);
  const auto& opening = view.setting.opening;
  if (opening && (!jaws.least || *jaws.least > *opening)) {
    if (const auto flatter = placing::flatter_that_fits(view.setting, view.pose))
      job.facts.put(fact::mirror_angle_that_fits, *flatter);
  }
  if (const auto corners = placing::room_at_corners(view.pose)) {
    job.facts.put(fact::mirror_at_corners, corners->mirror);
    job.facts.put(fact::between_corners, corners->between);
  }
}

} // namespace norma::plan
