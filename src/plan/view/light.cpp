#include <cmath>

#include "physics/exposure.hpp"
#include "physics/optics.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// Facts that a view's brightness depends on, besides the mirror.
const std::vector<const FactRow*>& shot_inputs() {
  static const std::vector<const FactRow*> rows{&fact::aperture, &fact::iso, &fact::ratio,
                                                &fact::pupil_ratio};
  return rows;
}

/// The view as a flash shot; nothing where something it needs is missing. Without a lamp distance
/// the distance is left at `fallback`, so that its part comes out as nothing.
std::optional<physics::Shot> shot_of(const Facts& facts, bool in_mirror,
                                     std::optional<Length> fallback) {
  const auto aperture = facts.get(fact::aperture);
  const auto iso = facts.get(fact::iso);
  const auto ratio = facts.get(fact::ratio);
  const auto pupil = facts.get(fact::pupil_ratio);
  const auto distance = facts.get(fact::lamp_distance);
  if (!aperture || !iso || !ratio || !pupil || (!distance && !fallback)) return std::nullopt;
  physics::Shot shot;
  shot.aperture = *aperture;
  shot.iso = *iso;
  shot.bellows = physics::bellows_factor(*ratio, *pupil);
  shot.distance = distance ? *distance : *fallback;
  if (in_mirror) {
    const auto loss = facts.get(fact::mirror_loss);
    if (!loss) return std::nullopt;
    shot.mirror_loss = *loss;
  }
  return shot;
}

void set_settings(Job& job) {
  const model::View& view = job.view;
  if (view.iso.known()) {
    job.facts.set(fact::iso, view.iso.get(), Status::asked);
  } else if (view.iso.broken()) {
    job.facts.set_broken(fact::iso);
  } else if (job.kit != nullptr && job.kit->least_iso.known() && job.kit->greatest_iso.known() &&
             job.kit->least_iso.get() == job.kit->greatest_iso.get()) {
    job.facts.set(fact::iso, job.kit->least_iso.get(), Status::measured); // the camera has one
  } else {
    job.facts.set_unknown(fact::iso, missing::iso());
  }
  if (job.kit != nullptr && job.kit->least_iso.known())
    job.facts.set(fact::least_iso, job.kit->least_iso.get(), Status::measured);
  if (job.kit != nullptr && job.kit->greatest_iso.known())
    job.facts.set(fact::greatest_iso, job.kit->greatest_iso.get(), Status::measured);
  if (view.shutter.known()) job.facts.set(fact::shutter, view.shutter.get(), Status::asked);
  if (job.facts.needs(fact::bellows_loss, {&fact::ratio, &fact::pupil_ratio})) {
    job.facts.derive(
        fact::bellows_loss,
        physics::bellows_loss(*job.facts.get(fact::ratio), *job.facts.get(fact::pupil_ratio)),
        {&fact::ratio, &fact::pupil_ratio});
  }
  if (job.facts.needs(fact::lamp_distance, {&fact::working_distance, &fact::lamp})) {
    job.facts.derive(fact::lamp_distance,
                     *job.facts.get(fact::working_distance) +
                         lamp_behind_front(*job.out.chosen.lamp),
                     {&fact::working_distance, &fact::lamp});
  }
}

Length ring_radius(const Job& job) {
  const kit::Lamp* lamp = job.out.chosen.lamp;
  return lamp == nullptr ? Length{} : lamp->radius.value_or(0.0 * mm);
}

std::vector<const FactRow*> inputs_of(const Job& job) {
  std::vector<const FactRow*> inputs = shot_inputs();
  if (job.view.taken_in_mirror) inputs.push_back(&fact::mirror_loss);
  return inputs;
}

/// What this view needs more than the one it is to match, part by part.
void set_offset(Job& job, const Reference& reference) {
  const std::vector<const FactRow*> inputs = inputs_of(job);
  if (!job.facts.needs(fact::offset, inputs)) return;
  // Lamp distances count where both are known; else the lamp is taken to stay where it is.
  const bool both = job.facts.get(fact::lamp_distance) && reference.facts.get(fact::lamp_distance);
  const std::optional<Length> fallback = both ? std::nullopt : std::optional<Length>(100.0 * mm);
  const auto shot = shot_of(job.facts, job.view.taken_in_mirror, fallback);
  const auto base = shot_of(reference.facts, reference.view.taken_in_mirror, fallback);
  if (!shot || !base) {
    job.facts.set_unknown(fact::offset, missing::settings_of_view(reference.view.name));
    return;
  }
  physics::Shot here = *shot;
  physics::Shot there = *base;
  if (!both) here.distance = there.distance = *fallback;
  const physics::LightParts parts = physics::light_needed(here, there, ring_radius(job));
  job.facts.derive(fact::offset_aperture, parts.aperture, {&fact::aperture});
  job.facts.derive(fact::offset_iso, parts.iso, {&fact::iso});
  job.facts.derive(fact::offset_bellows, parts.bellows, {&fact::ratio, &fact::pupil_ratio});
  std::vector<const FactRow*> all{&fact::offset_aperture, &fact::offset_iso, &fact::offset_bellows};
  if (both) {
    job.facts.derive(fact::offset_distance, parts.distance, {&fact::lamp_distance});
    all.push_back(&fact::offset_distance);
  } else if (job.kit != nullptr) {
    const Fact* open = job.facts.find(fact::lamp_distance);
    job.open(question::lamp_distance_adds, open == nullptr || open->why.empty()
                                               ? missing::settings_of_view(reference.view.name)
                                               : open->why);
  }
  std::vector<const FactRow*> from_mirror;
  if (job.view.taken_in_mirror) from_mirror.push_back(&fact::mirror_loss);
  job.facts.derive(fact::offset_mirror, parts.mirror, from_mirror);
  all.push_back(&fact::offset_mirror);
  job.facts.derive(fact::offset, parts.total(), all);
  const auto own = job.facts.get(fact::mirror_loss_spread);
  const auto other = reference.facts.get(fact::mirror_loss_spread);
  if (own || other) {
    job.facts.set(fact::offset_spread,
                  std::hypot(own.value_or(Stops{}).in(stop), other.value_or(Stops{}).in(stop)) *
                      stop,
                  Status::measured, {&fact::mirror_loss_spread});
  }
}

void set_stated(Job& job) {
  const auto& exposure = job.view.exposure;
  if (!exposure.known() || !exposure->offset) return;
  job.facts.set(fact::stated_offset, *exposure->offset, Status::asked);
  const Stops spread = job.facts.get(fact::mirror_loss_spread).value_or(Stops{});
  job.facts.set(fact::offset_tolerance, (1.0 / 3.0) * stop + spread, Status::assumed);
  if (job.facts.needs(fact::offset_apart, {&fact::stated_offset, &fact::offset})) {
    job.facts.derive(fact::offset_apart, *exposure->offset - *job.facts.get(fact::offset),
                     {&fact::stated_offset, &fact::offset});
  }
}

/// Power from the kit's reference shot, or from the guide number.
std::optional<Power> power_needed(Job& job, Said& missing) {
  const kit::Lamp& lamp = *job.out.chosen.lamp;
  const auto shot = shot_of(job.facts, job.view.taken_in_mirror, std::nullopt);
  if (!shot) {
    missing = missing::working_distance();
    return std::nullopt;
  }
  if (lamp.reference) {
    const kit::ReferenceShot& r = *lamp.reference;
    if (!r.aperture.known() || !r.iso.known() || !r.ratio.known() || !r.power.known() ||
        !r.distance.known()) {
      missing = missing::whole_reference_shot();
      return std::nullopt;
    }
    physics::Shot base;
    base.aperture = r.aperture.get();
    base.iso = r.iso.get();
    base.bellows = physics::bellows_factor(r.ratio.get(), *job.facts.get(fact::pupil_ratio));
    base.distance = r.distance.get();
    base.mirror_loss = r.mirror_loss.value_or(Stops{});
    const auto parts = physics::light_needed(*shot, base, ring_radius(job));
    return physics::power_for(parts.total(), r.power.get());
  }
  if (lamp.guide_number.known()) {
    return physics::power_by_guide_number(
        physics::effective_f_number(shot->aperture, *job.facts.get(fact::ratio),
                                    *job.facts.get(fact::pupil_ratio)),
        shot->distance, lamp.guide_number.get(), shot->iso, shot->mirror_loss);
  }
  missing = missing::reference_or_guide_number();
  return std::nullopt;
}

/// The next mark of the ISO scale from which on the flash has enough; nothing where the camera has
/// none so high. Marks: the preferred numbers of ISO 3, as cameras print them.
void set_iso_that_does(Job& job, Stops shortfall) {
  constexpr double marks[] = {100, 125, 160, 200, 250, 320, 400, 500, 640, 800};
  constexpr double rounded = 1.02; // a mark stands for a number up to 2 % higher
  const double needed = job.facts.get(fact::iso)->value() * std::exp2(shortfall.in(stop));
  for (double decade = 0.1; decade < 1e4; decade *= 10) {
    for (const double mark : marks) {
      if (mark * decade * rounded < needed) continue;
      const bool had =
          !job.kit->greatest_iso.known() || mark * decade <= job.kit->greatest_iso.get().value();
      if (had)
        job.facts.derive(fact::iso_that_does, IsoSpeed{mark * decade},
                         {&fact::iso, &fact::shortfall});
      return;
    }
  }
}

void set_power(Job& job) {
  std::vector<const FactRow*> inputs = inputs_of(job);
  inputs.push_back(&fact::lamp);
  inputs.push_back(&fact::lamp_distance);
  if (!job.facts.needs(fact::power_needed, inputs)) return;
  const kit::Lamp& used = *job.out.chosen.lamp;
  if (used.light.known() && used.light.get() == kit::LampLight::steady) {
    job.facts.set_unknown(fact::power_needed, missing::meter());
    return;
  }
  Said missing;
  auto needed = power_needed(job, missing);
  // More or less light than a right exposure; against another view it is held elsewhere.
  const auto& exposure = job.view.exposure;
  if (needed && exposure.known() && exposure->offset && exposure->as_view.empty())
    needed = Power{needed->value() * std::exp2(exposure->offset->in(stop))};
  if (!needed) {
    job.facts.set_unknown(fact::power_needed, missing);
    return;
  }
  job.facts.derive(fact::power_needed, *needed, inputs, Status::measured);
  const kit::Lamp& lamp = *job.out.chosen.lamp;
  const bool least_known = lamp.least_power.known();
  const Power least = least_known ? lamp.least_power.get() : Power{1.0 / 1024.0};
  const physics::PowerSetting setting = physics::power_setting(*needed, least);
  job.facts.derive(fact::shortfall, setting.shortfall, {&fact::power_needed});
  if (least_known) job.facts.derive(fact::excess, setting.excess, {&fact::power_needed});
  if (setting.shortfall > Stops{}) {
    set_iso_that_does(job, setting.shortfall);
    job.facts.set_impossible(fact::power, phrase::flash_has_less(), std::optional(Power{1.0}),
                             {&fact::power_needed});
  } else {
    job.facts.derive(fact::power, setting.set, {&fact::power_needed});
    if (const auto spread = job.facts.get(fact::mirror_loss_spread))
      job.facts.derive(fact::power_spread, *spread, {&fact::mirror_loss_spread});
  }
}

} // namespace

void plan_light(Job& job, const Reference* reference) {
  set_settings(job);
  if (job.view.exposure.broken()) {
    job.facts.set_broken(fact::offset);
  } else if (reference != nullptr) {
    job.facts.set(fact::exposure_reference, reference->view.name, Status::asked);
    if (!reference->itself) set_offset(job, *reference);
  }
  set_stated(job);
  if (job.kit != nullptr) set_power(job);
}

} // namespace norma::plan
