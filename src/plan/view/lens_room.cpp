// Whether the subject has room in front of lens and lamp.
#include "plan/job.hpp"

namespace norma::plan {

void plan_lens_room(Job& job) {
  const kit::Lamp* lamp = job.out.chosen.lamp;
  const auto distance = job.facts.get(fact::working_distance);
  if (!distance) return; // said by the scale
  const Length out = lamp == nullptr ? Length{} : lamp->stands_out.value_or(0.0 * mm);
  if (lamp != nullptr && lamp->stands_out.known())
    job.facts.set(fact::stands_out, out, Status::measured);
  job.facts.derive(fact::lens_clearance, *distance - out, {&fact::working_distance});
  if (lamp != nullptr && lamp->radius.known())
    job.facts.set(fact::ring_radius, lamp->radius.get(), Status::measured);
}

} // namespace norma::plan
