// What wears off, or has to be measured again.
#include "kit/due.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

void set_frosting(Job& job, const kit::Retractor& r, const kit::Frosting& frosting) {
  job.facts.put(fact::frosting_of, name_or(r.name, phrase::retractor()));
  if (frosting.cycles) {
    job.facts.put(fact::frosting_cycles, frosting.cycles->passed);
    job.facts.put(fact::frosting_cycles_limit, frosting.cycles->last_for);
    return;
  }
  const Said which = name_or(r.name, phrase::the_retractor());
  switch (frosting.age.since) {
  case kit::Age::Since::unreadable: job.facts.put_broken(fact::frosting_age); return;
  case kit::Age::Since::nobody_said:
    job.facts.put_unknown(fact::frosting_age, missing::day_frosted(which));
    return;
  case kit::Age::Since::ahead:
    job.facts.put_unknown(fact::frosting_age, missing::day_frosted_ahead(which));
    return;
  case kit::Age::Since::day: break;
  }
  job.facts.put(fact::frosting_age, frosting.age.months);
  job.give_limit(fact::frosting_age_limit, physics::defaults::frosting_good_for);
}

/// The first of the retractors that is frosted.
void set_frosting(Job& job) {
  const Recording one(job.facts);
  for (const kit::Retractor* r : {job.right_retractor(), job.left_retractor()}) {
    if (r == nullptr) continue;
    if (const auto frosting = kit::frosting_of(*r, job.on)) return set_frosting(job, *r, *frosting);
  }
}

void set_reference_age(Job& job) {
  const Recording one(job.facts);
  const kit::Lamp* lamp = job.lamp();
  if (lamp == nullptr || !lamp->reference) return;
  const kit::Age age = kit::age_of(lamp->reference->date, job.on);
  switch (age.since) {
  case kit::Age::Since::unreadable: return;
  case kit::Age::Since::nobody_said: job.open(question::shot_holds, missing::day_taken()); return;
  case kit::Age::Since::ahead: job.open(question::shot_holds, missing::day_taken_ahead()); return;
  case kit::Age::Since::day: break;
  }
  job.facts.put(fact::reference_age, age.months);
  job.give_limit(fact::reference_age_limit, physics::defaults::shot_good_for);
}

} // namespace

void plan_upkeep(Job& job) {
  if (!job.has_kit()) return;
  set_frosting(job);
  set_reference_age(job);
  {
    const Recording one(job.facts);
    const text::Sourced<Time>& processing = job.kit()->processing;
    if (processing.known()) job.facts.put(fact::processing, processing.get());
  }
  if (job.view.wait_after.known()) job.facts.put(fact::wait_after, job.view.wait_after.get());
}

} // namespace norma::plan
