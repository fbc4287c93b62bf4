#include <algorithm>
#include <cmath>

#include "physics/optics.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// A value of protocol or kit as it stands there: known, broken, or missing.
template <class T>
void put_said(Job& job, const FactDef<T>& def, const text::Sourced<T>& said,
              const diag::Term& missing) {
  if (said.known()) {
    job.facts.put(def, said.get());
  } else if (said.broken()) {
    job.facts.put_broken(def);
  } else {
    job.facts.put_unknown(def, missing());
  }
}

void set_sensors(Job& job) {
  put_said(job, fact::reference_sensor, job.protocol.sensor, missing::sensor_of_ratios);
  const Recording one(job.facts);
  if (job.has_kit()) return put_said(job, fact::sensor, job.kit()->sensor, missing::sensor);
  // Without a kit the protocol is held against the sensor it is written for.
  job.facts.work_out(
      fact::sensor, [](Size asked) { return asked; }, fact::reference_sensor);
}

void set_lens(Job& job) {
  const Recording one(job.facts);
  const kit::Kit* kit = job.kit();
  const bool lens = kit != nullptr && kit->lens;
  if (!lens) {
    const Said missing = kit == nullptr ? missing::kit() : missing::lens();
    for (const FactRow* row : std::initializer_list<const FactRow*>{
             &fact::focal_length, &fact::lens_greatest, &fact::lens_least})
      job.facts.put_unknown(*row, missing);
  } else {
    put_said(job, fact::focal_length, kit->lens->focal_length, missing::focal_length);
    put_said(job, fact::lens_greatest, kit->lens->greatest_ratio, missing::lens_ratios);
    put_said(job, fact::lens_least, kit->lens->least_ratio, missing::lens_ratios);
  }
  if (lens && kit->lens->pupil_ratio.known()) {
    job.facts.put(fact::pupil_ratio, kit->lens->pupil_ratio.get());
  } else {
    job.facts.give(fact::pupil_ratio, physics::defaults::pupil);
  }
}

/// Which engraved ratio the lens is set to; between which two where none is the one.
void set_mark(Job& job) {
  const Recording one(job.facts);
  const kit::Kit* kit = job.kit();
  if (kit == nullptr || !kit->lens || kit->lens->marks.empty()) return;
  const double wanted = job.facts.get(fact::ratio)->value();
  constexpr double same = 0.01;
  std::optional<Magnification> below;
  std::optional<Magnification> above;
  for (const Magnification mark : kit->lens->marks) {
    if (std::abs(mark.value() / wanted - 1.0) <= same)
      return job.facts.put(fact::lens_mark, phrase::mark(mark));
    if (mark.value() < wanted && (!below || *below < mark)) below = mark;
    if (mark.value() > wanted && (!above || mark < *above)) above = mark;
  }
  job.facts.put(fact::lens_mark, below && above ? phrase::mark_between(*below, *above)
                                 : below        ? phrase::mark_past(*below)
                                                : phrase::mark_before(*above));
}

/// A camera with one ratio and no other: the kit's lens says which.
void set_ratio_of_camera(Job& job) {
  const auto greatest = job.facts.get(fact::lens_greatest);
  const auto least = job.facts.get(fact::lens_least);
  if (!greatest || !least) {
    job.facts.put_unknown(fact::ratio, missing::ratio_of_camera());
  } else if (greatest->value() > least->value() * (1.0 + 1e-9)) {
    job.facts.put_unknown(fact::ratio, missing::one_ratio());
  } else {
    job.facts.put(fact::ratio, *greatest);
  }
}

/// The protocol's ratio on the kit's sensor.
void set_ratio_carried(Job& job) {
  const Recording one(job.facts);
  if (!job.facts.needs(fact::ratio, {&fact::ratio_asked, &fact::reference_sensor, &fact::sensor}))
    return;
  const physics::CarriedRatio carried =
      physics::carried_ratio(*job.facts.get(fact::ratio_asked),
                             *job.facts.get(fact::reference_sensor), *job.facts.get(fact::sensor));
  job.facts.put(fact::ratio_exact, carried.exact);
  job.facts.put(fact::ratio_shortfall, carried.shortfall);
  constexpr double slack = 1.0 + 1e-9;
  const auto greatest = job.facts.get(fact::lens_greatest);
  const auto least = job.facts.get(fact::lens_least);
  const bool too_large = greatest && carried.nominal.value() > greatest->value() * slack;
  const bool too_small = least && carried.nominal.value() * slack < least->value();
  if (too_large || too_small)
    return job.facts.put_impossible(fact::ratio, phrase::lens_cannot_be_set(),
                                    too_large ? *greatest : *least);
  job.facts.put(fact::ratio, carried.nominal);
  if (!greatest && job.has_kit()) job.open(question::lens_reaches, missing::lens_ratios());
}

void set_ratio(Job& job) {
  const Recording one(job.facts);
  if (job.view.ratio_of_camera) return set_ratio_of_camera(job);
  put_said(job, fact::ratio_asked, job.view.ratio, missing::ratio);
  set_ratio_carried(job);
  if (job.facts.has(fact::ratio)) set_mark(job);
}

void set_distances(Job& job) {
  job.facts.work_out(fact::pupil_distance, physics::pupil_distance, fact::focal_length, fact::ratio,
                     fact::pupil_ratio);
  const Recording one(job.facts);
  if (!job.facts.needs(fact::working_distance, {&fact::focal_length, &fact::ratio})) return;
  std::vector<physics::DistanceAtRatio> table;
  for (const kit::DistanceRow& row : job.kit()->lens->working_distance)
    table.push_back({row.ratio, row.distance});
  const Magnification ratio = *job.facts.get(fact::ratio);
  if (const auto distance = physics::working_distance(table, ratio)) {
    job.facts.put(fact::working_distance, *distance);
  } else {
    job.facts.put_unknown(fact::working_distance, table.empty()
                                                      ? missing::working_distances()
                                                      : missing::working_distance_at(ratio));
  }
}

} // namespace

Length lamp_behind_front(const kit::Lamp& lamp) {
  return lamp.behind_front.value_or(0.0 * mm) - lamp.stands_out.value_or(0.0 * mm);
}

Magnification as_asked(const Job& job, Magnification ratio) {
  const auto asked = job.facts.get(fact::ratio_asked);
  const auto exact = job.facts.get(fact::ratio_exact);
  if (!asked || !exact) return ratio;
  return physics::rounded_smaller(Magnification{ratio.value() * asked->value() / exact->value()});
}

void plan_scale(Job& job) {
  set_sensors(job);
  set_lens(job);
  set_ratio(job);
  set_distances(job);
  if (job.view.least_distance.known())
    job.facts.put(fact::least_distance, job.view.least_distance.get());
  job.facts.work_out(
      fact::field_width,
      [](Size sensor, Magnification m) { return physics::field(sensor, m).width; }, fact::sensor,
      fact::ratio);
  job.facts.work_out(
      fact::field_height,
      [](Size sensor, Magnification m) { return physics::field(sensor, m).height; }, fact::sensor,
      fact::ratio);
}

} // namespace norma::plan
