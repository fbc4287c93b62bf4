// Whether an arch mirror has room in the mouth.
#include "placing/room.hpp"

#include "plan/scene/scene.hpp"

namespace norma::plan {

namespace {

/// From the one to the other, as they are held.
void set_between_corners(Job& job, const Placed& view) {
  const Recording one(job.facts);
  const auto corners = placing::room_at_corners(view.pose);
  if (!corners) return;
  job.facts.told_by(view.read);
  job.facts.find(fact::corner_side);
  job.facts.find(fact::other_corner_side);
  job.facts.put(fact::between_corners, corners->between);
}

} // namespace

void fit_mirror(Job& job, const Placed& view) {
  set_between_corners(job, view);
  const Recording one(job.facts);
  job.facts.use(view.read);
  const placing::RoomBetweenJaws jaws = placing::room_between_jaws(view.pose);
  if (jaws.least) job.facts.put(fact::opening_for_mirror, *jaws.least);
  if (!jaws.least && jaws.widest) job.facts.put(fact::mirror_at_no_opening, *jaws.widest);
  const auto& opening = view.setting.opening;
  if (opening && (!jaws.least || *jaws.least > *opening)) {
    if (const auto flatter = placing::flatter_that_fits(view.setting, view.pose))
      job.facts.put(fact::mirror_angle_that_fits, *flatter);
  }
  if (const auto corners = placing::room_at_corners(view.pose))
    job.facts.put(fact::mirror_at_corners, corners->mirror);
}

} // namespace norma::plan
