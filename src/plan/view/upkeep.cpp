// What wears off, or has to be measured again.
#include "kit/due.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

void set_frosting(Job& job, const kit::Retractor& r, const kit::Frosting& frosting) {
  job.facts.set(fact::frosting_of, name_or(r.name, phrase::retractor()), Status::measured);
  if (frosting.cycles) {
    job.facts.set(fact::frosting_cycles, frosting.cycles->passed, Status::measured);
    job.facts.set(fact::frosting_cycles_limit, frosting.cycles->last_for, Status::measured);
    return;
  }
  const Said which = name_or(r.name, phrase::the_retractor());
  switch (frosting.age.since) {
  case kit::Age::Since::unreadable: job.facts.set_broken(fact::frosting_age); return;
  case kit::Age::Since::nobody_said:
    job.facts.set_unknown(fact::frosting_age, missing::day_frosted(which));
    return;
  case kit::Age::Since::ahead:
    job.facts.set_unknown(fact::frosting_age, missing::day_frosted_ahead(which));
    return;
  case kit::Age::Since::day: break;
  }
  job.facts.set(fact::frosting_age, frosting.age.months, Status::measured);
  const LimitValue limit = job.limit(physics::defaults::frosting_good_for);
  job.facts.set(fact::frosting_age_limit, static_cast<int>(limit.value), limit.status);
}

void set_reference_age(Job& job, const kit::Lamp& lamp) {
  if (!lamp.reference) return;
  const kit::Age age = kit::age_of(lamp.reference->date, job.on);
  switch (age.since) {
  case kit::Age::Since::unreadable: return;
  case kit::Age::Since::nobody_said: job.open(question::shot_holds, missing::day_taken()); return;
  case kit::Age::Since::ahead: job.open(question::shot_holds, missing::day_taken_ahead()); return;
  case kit::Age::Since::day: break;
  }
  job.facts.set(fact::reference_age, age.months, Status::measured);
  const LimitValue limit = job.limit(physics::defaults::shot_good_for);
  job.facts.set(fact::reference_age_limit, static_cast<int>(limit.value), limit.status);
}

} // namespace

void plan_upkeep(Job& job) {
  if (job.kit == nullptr) return;
  for (const kit::Retractor* r : {job.out.chosen.right_retractor, job.out.chosen.left_retractor}) {
    if (r == nullptr) continue;
    const auto frosting = kit::frosting_of(*r, job.on);
    if (!frosting) continue;
    set_frosting(job, *r, *frosting);
    break;
  }
  if (job.out.chosen.lamp != nullptr) set_reference_age(job, *job.out.chosen.lamp);
  if (job.kit->processing.known())
    job.facts.set(fact::processing, job.kit->processing.get(), Status::measured);
  if (job.view.wait_after.known())
    job.facts.set(fact::wait_after, job.view.wait_after.get(), Status::asked);
}

} // namespace norma::plan
