// Whether the subject has room in front of lens and lamp.
#include "plan/job.hpp"

namespace norma::plan {

void plan_lens_room(Job& job) {
  const Recording one(job.facts);
  if (!job.facts.has(fact::working_distance)) return; // said by the scale
  const kit::Lamp* lamp = job.lamp();
  const bool out = lamp != nullptr && lamp->stands_out.known();
  if (out) job.facts.put(fact::stands_out, lamp->stands_out.get());
  {
    const Recording clear(job.facts);
    job.facts.put(fact::lens_clearance, *job.facts.get(fact::working_distance) -
                                            (out ? lamp->stands_out.get() : Length{}));
  }
  if (lamp != nullptr && lamp->radius.known()) job.facts.put(fact::ring_radius, lamp->radius.get());
}

} // namespace norma::plan
