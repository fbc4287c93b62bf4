// What wears off, or has to be measured again.
#include "plan/job.hpp"

namespace norma::plan {
namespace {

bool frosted(const kit::Retractor* r) {
  return r != nullptr && r->finish.known() && r->finish.get() == kit::Finish::frosted &&
         r->material.known() && r->material.get() == kit::Material::metal;
}

/// Cycles count where they are counted; else the months do.
void set_frosting(Job& job, const kit::Retractor& r) {
  job.facts.set(fact::frosting_of, r.name.value_or("retractor"), Status::measured);
  if (r.cycles_since_frosted.known() && r.frosting_lasts_cycles.known()) {
    job.facts.set(fact::frosting_cycles, r.cycles_since_frosted.get(), Status::measured);
    job.facts.set(fact::frosting_cycles_limit, r.frosting_lasts_cycles.get(), Status::measured);
    return;
  }
  if (r.frosted_on.broken()) {
    job.facts.set_broken(fact::frosting_age);
    return;
  }
  if (!r.frosted_on.known()) {
    job.facts.set_unknown(fact::frosting_age, "day on which " + r.name.value_or("the retractor") +
                                                  " was frosted, or its cycles since");
    return;
  }
  if (job.on < r.frosted_on.get()) {
    job.facts.set_unknown(fact::frosting_age, "day on which " + r.name.value_or("the retractor") +
                                                  " was frosted; the one that is given lies ahead");
    return;
  }
  job.facts.set(fact::frosting_age, words::months_between(r.frosted_on.get(), job.on),
                Status::measured);
  const LimitValue limit = job.limit(physics::defaults::frosting_good_for);
  job.facts.set(fact::frosting_age_limit, static_cast<int>(limit.value), limit.status);
}

void set_reference_age(Job& job, const kit::Lamp& lamp) {
  if (!lamp.reference) return;
  if (lamp.reference->date.known() && job.on < lamp.reference->date.get()) {
    job.open(question::shot_holds,
             "day on which it was taken; the one that is given lies ahead");
  } else if (lamp.reference->date.known()) {
    job.facts.set(fact::reference_age, words::months_between(lamp.reference->date.get(), job.on),
                  Status::measured);
    const LimitValue limit = job.limit(physics::defaults::shot_good_for);
    job.facts.set(fact::reference_age_limit, static_cast<int>(limit.value), limit.status);
  } else if (lamp.reference->date.absent()) {
    job.open(question::shot_holds, "day on which it was taken");
  }
}

} // namespace

void plan_upkeep(Job& job) {
  if (job.kit == nullptr) return;
  for (const kit::Retractor* r : {job.out.chosen.right_retractor, job.out.chosen.left_retractor}) {
    if (!frosted(r)) continue;
    set_frosting(job, *r);
    break;
  }
  if (job.out.chosen.lamp != nullptr) set_reference_age(job, *job.out.chosen.lamp);
  if (job.kit->processing.known())
    job.facts.set(fact::processing, job.kit->processing.get(), Status::measured);
  if (job.view.wait_after.known())
    job.facts.set(fact::wait_after, job.view.wait_after.get(), Status::asked);
}

} // namespace norma::plan
