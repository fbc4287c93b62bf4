#include <algorithm>
#include <cmath>

#include "physics/optics.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

std::optional<Size> set_sensors(Job& job) {
  if (job.protocol.sensor.known()) {
    job.facts.set(fact::reference_sensor, job.protocol.sensor.get(), Status::asked);
  } else if (job.protocol.sensor.broken()) {
    job.facts.set_broken(fact::reference_sensor);
  } else {
    job.facts.set_unknown(fact::reference_sensor, missing::sensor_of_ratios());
  }
  if (job.kit == nullptr) {
    // Without a kit the protocol is held against the sensor it is written for.
    if (!job.protocol.sensor.known()) {
      job.facts.needs(fact::sensor, {&fact::reference_sensor});
      return std::nullopt;
    }
    job.facts.set(fact::sensor, job.protocol.sensor.get(), Status::asked);
    return job.protocol.sensor.get();
  }
  if (job.kit->sensor.known()) {
    job.facts.set(fact::sensor, job.kit->sensor.get(), Status::measured);
    return job.kit->sensor.get();
  }
  if (job.kit->sensor.broken()) {
    job.facts.set_broken(fact::sensor);
  } else {
    job.facts.set_unknown(fact::sensor, missing::sensor());
  }
  return std::nullopt;
}

void set_lens(Job& job) {
  if (job.kit == nullptr || !job.kit->lens) {
    const Said missing = job.kit == nullptr ? missing::kit() : missing::lens();
    job.facts.set_unknown(fact::focal_length, missing);
    job.facts.set_unknown(fact::lens_greatest, missing);
    job.facts.set_unknown(fact::lens_least, missing);
  } else {
    const kit::Lens& lens = *job.kit->lens;
    const auto give = [&](const auto& def, const auto& value, const diag::Term& missing) {
      if (value.known()) {
        job.facts.set(def, value.get(), Status::measured);
      } else if (value.broken()) {
        job.facts.set_broken(def);
      } else {
        job.facts.set_unknown(def, missing());
      }
    };
    give(fact::focal_length, lens.focal_length, missing::focal_length);
    give(fact::lens_greatest, lens.greatest_ratio, missing::lens_ratios);
    give(fact::lens_least, lens.least_ratio, missing::lens_ratios);
    if (lens.pupil_ratio.known()) {
      job.facts.set(fact::pupil_ratio, lens.pupil_ratio.get(), Status::measured);
    }
  }
  if (job.facts.find(fact::pupil_ratio) == nullptr) {
    job.facts.set(fact::pupil_ratio, PupilRatio{physics::defaults::pupil.value}, Status::assumed);
  }
}

/// Which engraved ratio the lens is set to; between which two where none is the one.
void set_mark(Job& job) {
  if (job.kit == nullptr || !job.kit->lens || job.kit->lens->marks.empty()) return;
  const double wanted = job.facts.get(fact::ratio)->value();
  constexpr double same = 0.01;
  std::optional<Magnification> below;
  std::optional<Magnification> above;
  for (const Magnification mark : job.kit->lens->marks) {
    if (std::abs(mark.value() / wanted - 1.0) <= same) {
      job.facts.set(fact::lens_mark, phrase::mark(mark), Status::measured, {&fact::ratio});
      return;
    }
    if (mark.value() < wanted && (!below || *below < mark)) below = mark;
    if (mark.value() > wanted && (!above || mark < *above)) above = mark;
  }
  job.facts.set(fact::lens_mark,
                below && above ? phrase::mark_between(*below, *above)
                : below        ? phrase::mark_past(*below)
                               : phrase::mark_before(*above),
                Status::measured, {&fact::ratio});
}

/// A camera with one ratio and no other: the kit's lens says which.
void set_ratio_of_camera(Job& job) {
  const auto greatest = job.facts.get(fact::lens_greatest);
  const auto least = job.facts.get(fact::lens_least);
  if (!greatest || !least) {
    job.facts.set_unknown(fact::ratio, missing::ratio_of_camera());
  } else if (greatest->value() > least->value() * (1.0 + 1e-9)) {
    job.facts.set_unknown(fact::ratio, missing::one_ratio());
  } else {
    job.facts.derive(fact::ratio, *greatest, {&fact::lens_greatest, &fact::lens_least});
  }
}

void set_ratio(Job& job, const std::optional<Size>& sensor) {
  const text::Sourced<Magnification>& asked = job.view.ratio;
  if (job.view.ratio_of_camera) return set_ratio_of_camera(job);
  if (asked.known()) {
    job.facts.set(fact::ratio_asked, asked.get(), Status::asked);
  } else if (asked.broken()) {
    job.facts.set_broken(fact::ratio_asked);
  } else {
    job.facts.set_unknown(fact::ratio_asked, missing::ratio());
  }
  if (!job.facts.needs(fact::ratio, {&fact::ratio_asked, &fact::reference_sensor, &fact::sensor})) {
    return;
  }
  const physics::CarriedRatio carried =
      physics::carried_ratio(asked.get(), job.protocol.sensor.get(), *sensor);
  job.facts.derive(fact::ratio_exact, carried.exact,
                   {&fact::ratio_asked, &fact::reference_sensor, &fact::sensor});
  job.facts.derive(fact::ratio_shortfall, carried.shortfall,
                   {&fact::ratio_exact, &fact::sensor, &fact::reference_sensor});
  constexpr double slack = 1.0 + 1e-9;
  const auto greatest = job.facts.get(fact::lens_greatest);
  const auto least = job.facts.get(fact::lens_least);
  const bool too_large = greatest && carried.nominal.value() > greatest->value() * slack;
  const bool too_small = least && carried.nominal.value() * slack < least->value();
  if (too_large || too_small) {
    job.facts.set_impossible(fact::ratio, phrase::lens_cannot_be_set(),
                             std::optional(too_large ? *greatest : *least),
                             {&fact::ratio_exact, &fact::lens_greatest, &fact::lens_least});
    return;
  }
  job.facts.derive(fact::ratio, carried.nominal, {&fact::ratio_exact});
  set_mark(job);
  if (!greatest && job.kit != nullptr) {
    job.open(question::lens_reaches, missing::lens_ratios());
  }
}

void set_distances(Job& job) {
  if (job.facts.needs(fact::pupil_distance,
                      {&fact::focal_length, &fact::ratio, &fact::pupil_ratio})) {
    job.facts.derive(fact::pupil_distance,
                     physics::pupil_distance(*job.facts.get(fact::focal_length),
                                             *job.facts.get(fact::ratio),
                                             *job.facts.get(fact::pupil_ratio)),
                     {&fact::focal_length, &fact::ratio, &fact::pupil_ratio});
  }
  if (!job.facts.needs(fact::working_distance, {&fact::focal_length, &fact::ratio})) return;
  std::vector<physics::DistanceAtRatio> table;
  for (const kit::DistanceRow& row : job.kit->lens->working_distance) {
    table.push_back({row.ratio, row.distance});
  }
  const auto distance = physics::working_distance(table, *job.facts.get(fact::ratio));
  if (distance) {
    job.facts.set(fact::working_distance, *distance, Status::measured, {&fact::ratio});
  } else if (table.empty()) {
    job.facts.set_unknown(fact::working_distance, missing::working_distances());
  } else {
    job.facts.set_unknown(fact::working_distance,
                          missing::working_distance_at(*job.facts.get(fact::ratio)));
  }
}

void set_least_distance(Job& job) {
  if (job.view.least_distance.known()) {
    job.facts.set(fact::least_distance, job.view.least_distance.get(), Status::asked);
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
  const std::optional<Size> sensor = set_sensors(job);
  set_lens(job);
  set_ratio(job, sensor);
  set_distances(job);
  set_least_distance(job);
  for (const auto* side : {&fact::field_width, &fact::field_height}) {
    if (!job.facts.needs(*side, {&fact::ratio, &fact::sensor})) continue;
    const Size field = physics::field(*sensor, *job.facts.get(fact::ratio));
    job.facts.derive(*side, side == &fact::field_width ? field.width : field.height,
                     {&fact::ratio, &fact::sensor});
  }
}

} // namespace norma::plan
