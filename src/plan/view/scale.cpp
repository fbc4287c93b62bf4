#include <algorithm>
#include <cmath>

#include "physics/attached.hpp"
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

/// A digital zoom leaves a part of the sensor; the whole stays what sharpness is judged on.
void set_zoomed(Job& job, double factor) {
  job.facts.put(fact::whole_sensor, job.kit()->sensor.get());
  const Size whole = *job.facts.get(fact::whole_sensor);
  job.facts.put(fact::sensor, Size{whole.width / factor, whole.height / factor});
  job.open(question::enough_pixels, missing::pixels());
}

void set_sensors(Job& job) {
  put_said(job, fact::reference_sensor, job.protocol.sensor, missing::sensor_of_ratios);
  const Recording one(job.facts);
  if (job.has_kit() && job.kit()->digital_zoom.known() && job.kit()->sensor.known())
    return set_zoomed(job, job.kit()->digital_zoom.get());
  if (job.has_kit()) return put_said(job, fact::sensor, job.kit()->sensor, missing::sensor);
  // Without a kit the protocol is held against the sensor it is written for.
  job.facts.work_out(
      fact::sensor, [](Size asked) { return asked; }, fact::reference_sensor);
}

/// The kit's lens with what is on it.
class FittedLens {
 public:
  explicit FittedLens(const kit::Lens& lens)
      : on_{lens.close_up.known() ? std::optional(lens.close_up.get()) : std::nullopt,
            lens.tube.value_or(Length{}), lens.converter.value_or(1.0)},
        focal_length_(lens.focal_length.value_or(Length{})),
        pupil_(lens.pupil_ratio.value_or(PupilRatio{physics::defaults::pupil.value})) {
    for (const kit::DistanceRow& row : lens.working_distance)
      table_.push_back({row.ratio, row.distance});
  }
  /// Nothing is on it, or what is cannot be reckoned with.
  [[nodiscard]] bool bare() const { return on_.nothing() || focal_length_ <= Length{}; }
  [[nodiscard]] physics::BareLens lens() const { return {focal_length_, pupil_, table_}; }
  [[nodiscard]] const physics::Attached& on() const { return on_; }

 private:
  physics::Attached on_;
  Length focal_length_;
  PupilRatio pupil_;
  std::vector<physics::DistanceAtRatio> table_;
};

/// Of the lens itself, and of the whole.
void put_reach(Job& job, const FittedLens& fitted, const FactDef<Magnification>& def,
               const text::Sourced<Magnification>& own) {
  if (!own.known()) return put_said(job, def, own, missing::lens_ratios);
  job.facts.put(def, physics::ratio_with(fitted.lens(), fitted.on(), own.get()));
}

/// The lens with nothing on it that is to the whole as one to the other; the pupil as said.
void set_equivalent(Job& job, const FittedLens& fitted) {
  const Recording one(job.facts);
  const auto own = job.facts.get(fact::lens_set_to);
  const bool assumed = !job.kit()->lens->pupil_ratio.known();
  if (assumed) job.facts.take(physics::defaults::pupil);
  std::optional<physics::Equivalent> lens;
  if (own) lens = physics::equivalent_of(fitted.lens(), fitted.on(), *own);
  if (!lens) {
    const Said missing = own ? missing::close_up_in_reach() : missing::ratio();
    job.facts.put_unknown(fact::focal_length, missing);
    job.facts.put_unknown(fact::pupil_ratio, missing);
    return;
  }
  job.facts.put(fact::focal_length, lens->focal_length);
  job.facts.put(fact::pupil_ratio, lens->pupil);
}

void set_attached(Job& job) {
  const Recording one(job.facts);
  const kit::Kit* kit = job.kit();
  if (kit == nullptr || !kit->lens) return;
  const FittedLens fitted(*kit->lens);
  if (fitted.bare()) return;
  if (const auto ratio = job.facts.get(fact::ratio)) {
    if (const auto own = physics::own_ratio(fitted.lens(), fitted.on(), *ratio))
      job.facts.put(fact::lens_set_to, *own);
  }
  set_equivalent(job, fitted);
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
    const FittedLens fitted(*kit->lens);
    if (!fitted.bare()) {
      put_reach(job, fitted, fact::lens_greatest, kit->lens->greatest_ratio);
      put_reach(job, fitted, fact::lens_least, kit->lens->least_ratio);
      return; // the rest hangs on the ratio
    }
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
  if (kit == nullptr || !kit->lens) return;
  const auto own = job.facts.get(fact::lens_set_to);
  if (own && kit->lens->marks.empty())
    return job.facts.put(fact::lens_mark, phrase::lens_itself_at(*own));
  if (kit->lens->marks.empty()) return;
  const double wanted = own ? own->value() : job.facts.get(fact::ratio)->value();
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
}

void set_distances(Job& job) {
  job.facts.work_out(fact::pupil_distance, physics::pupil_distance, fact::focal_length, fact::ratio,
                     fact::pupil_ratio);
  const Recording one(job.facts);
  if (!job.facts.needs(fact::working_distance, {&fact::focal_length, &fact::ratio})) return;
  const FittedLens fitted(*job.kit()->lens);
  const physics::BareLens lens = fitted.lens();
  const Magnification ratio = *job.facts.get(fact::ratio);
  const Magnification own =
      fitted.bare() ? ratio : job.facts.get(fact::lens_set_to).value_or(ratio);
  auto distance = physics::working_distance(lens.distances, own);
  if (distance && !fitted.bare())
    distance = physics::distance_with(lens, fitted.on(), own, *distance);
  if (distance && *distance > Length{}) {
    job.facts.put(fact::working_distance, *distance);
  } else {
    job.facts.put_unknown(fact::working_distance, lens.distances.empty()
                                                      ? missing::working_distances()
                                                      : missing::working_distance_at(ratio));
  }
}

} // namespace

PupilRatio pupil_at(const Job& job, Magnification ratio) {
  const PupilRatio here = *job.facts.get(fact::pupil_ratio);
  if (!job.facts.has(fact::lens_set_to)) return here;
  const FittedLens fitted(*job.kit()->lens);
  const auto own = physics::own_ratio(fitted.lens(), fitted.on(), ratio);
  if (!own) return here;
  const auto lens = physics::equivalent_of(fitted.lens(), fitted.on(), *own);
  return lens ? lens->pupil : here;
}

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
  set_attached(job);
  if (!job.view.ratio_of_camera) {
    const Recording one(job.facts);
    if (job.facts.has(fact::ratio)) set_mark(job);
  }
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
