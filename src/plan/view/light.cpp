#include <cmath>
#include <concepts>

#include "physics/exposure.hpp"
#include "physics/optics.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// Facts as they are got: those of the view that is worked out, or of the one it is to match.
template <class Get>
concept Getter = requires(const Get& get) {
  { get(fact::aperture) } -> std::same_as<std::optional<FNumber>>;
};

auto own(const Job& job) {
  return [&job](const auto& def) { return job.facts.get(def); };
}
auto of(const Job& job, const Reference& reference) {
  return
      [&job, &reference](const auto& def) { return job.facts.get_of_other(reference.facts, def); };
}

/// The view as a flash shot; nothing where something it needs is missing. Without a lamp distance
/// the distance is left at `fallback`, so that its part comes out as nothing.
std::optional<physics::Shot> shot_of(const Getter auto& get, bool in_mirror,
                                     std::optional<Length> fallback) {
  const auto aperture = get(fact::aperture);
  const auto iso = get(fact::iso);
  const auto ratio = get(fact::ratio);
  const auto pupil = get(fact::pupil_ratio);
  const auto distance = get(fact::lamp_distance);
  if (!aperture || !iso || !ratio || !pupil || (!distance && !fallback)) return std::nullopt;
  physics::Shot shot;
  shot.aperture = *aperture;
  shot.iso = *iso;
  shot.bellows = physics::bellows_factor(*ratio, *pupil);
  shot.distance = distance ? *distance : *fallback;
  if (in_mirror) {
    const auto loss = get(fact::mirror_loss);
    if (!loss) return std::nullopt;
    shot.mirror_loss = *loss;
  }
  return shot;
}

void set_iso(Job& job) {
  const Recording one(job.facts);
  const text::Sourced<IsoSpeed>& asked = job.view.iso;
  const bool by_camera = job.has_kit() && job.kit_->exposes_by_itself();
  if (asked.known() && !by_camera) return job.facts.put(fact::iso, asked.get());
  if (asked.broken()) return job.facts.put_broken(fact::iso);
  const kit::Kit* kit = job.kit();
  if (kit != nullptr && kit->least_iso.known() && kit->greatest_iso.known() &&
      kit->least_iso.get() == kit->greatest_iso.get())
    return job.facts.put(fact::iso, kit->least_iso.get()); // the camera has one
  job.facts.put_unknown(fact::iso, by_camera ? missing::camera_exposes() : missing::iso());
}

void set_shutter(Job& job) {
  const Recording one(job.facts);
  if (job.camera_exposes()) return job.facts.put_unknown(fact::shutter, missing::camera_exposes());
  if (job.view.shutter.known()) job.facts.put(fact::shutter, job.view.shutter.get());
}

void set_settings(Job& job) {
  set_iso(job);
  {
    const Recording one(job.facts);
    const kit::Kit* kit = job.kit();
    if (kit != nullptr && kit->least_iso.known())
      job.facts.put(fact::least_iso, kit->least_iso.get());
    if (kit != nullptr && kit->greatest_iso.known())
      job.facts.put(fact::greatest_iso, kit->greatest_iso.get());
  }
  set_shutter(job);
  job.facts.work_out(fact::bellows_loss, physics::bellows_loss, fact::ratio, fact::pupil_ratio);
  {
    const Recording one(job.facts);
    const kit::Kit* kit = job.kit();
    if (kit != nullptr && kit->lens && kit->lens->filter.known())
      job.facts.put(fact::filter_loss, kit->lens->filter.get());
  }
  const Recording one(job.facts);
  if (job.facts.needs(fact::lamp_distance, {&fact::working_distance, &fact::lamp}))
    job.facts.put(fact::lamp_distance,
                  *job.facts.get(fact::working_distance) + lamp_behind_front(*job.lamp()));
}

bool is_twin(const kit::Lamp& lamp) {
  return lamp.kind.known() && lamp.kind.get() == kit::LampKind::twin;
}

/// How the lamp lies around the lens; one beside it counts as a point on the axis. Nothing where it
/// is not known how far two heads stand apart.
std::optional<physics::LampForm> form_of(const Job& job) {
  using Kind = physics::LampForm::Kind;
  const kit::Lamp* lamp = job.lamp();
  if (lamp == nullptr) return physics::LampForm{};
  if (!is_twin(*lamp)) {
    const Length radius = lamp->radius.value_or(0.0 * mm);
    return physics::LampForm{radius > Length{} ? Kind::ring : Kind::point, radius};
  }
  if (!lamp->heads_apart.known()) return std::nullopt;
  return physics::LampForm{Kind::two_heads, 0.5 * lamp->heads_apart.get()};
}

/// What the brightness of this view depends on must be there, and the lamp where that counts.
bool needs_shot(Job& job, const FactRow& row, bool lamp) {
  std::vector<const FactRow*> inputs{&fact::aperture, &fact::iso, &fact::ratio, &fact::pupil_ratio};
  if (job.view.taken_in_mirror) inputs.push_back(&fact::mirror_loss);
  if (lamp) inputs.insert(inputs.end(), {&fact::lamp, &fact::lamp_distance});
  return job.facts.needs(row, inputs);
}

/// One part of what a view needs more than its reference: that of two shots which differ in what
/// `fill` takes from their facts, and in nothing else.
template <class Fill>
void set_part(Job& job, const Reference& reference, const FactDef<Stops>& def,
              Stops physics::LightParts::*part, Fill fill) {
  const Recording one(job.facts);
  physics::Shot here;
  here.distance = 100.0 * mm;
  physics::Shot there = here;
  fill(here, own(job), job.view);
  fill(there, of(job, reference), reference.view);
  const bool counts = part == &physics::LightParts::distance;
  const physics::LampForm form = counts ? *form_of(job) : physics::LampForm{};
  job.facts.put(def, physics::light_needed(here, there, form).*part);
}

/// It counts for the part of the lamp's distance alone.
bool has_form(const Job& job) {
  const Recording apart(job.facts);
  return form_of(job).has_value();
}

/// What this view needs more than the one it is to match, part by part.
void set_offset(Job& job, const Reference& reference) {
  const Recording one(job.facts);
  job.facts.find(fact::exposure_reference);
  if (job.camera_exposes()) return job.facts.put_unknown(fact::offset, missing::camera_exposes());
  // Lamp distances count where both are known; else the lamp is taken to stay where it is.
  bool both = false;
  facts::Record whether_there;
  {
    const Recording whether(job.facts);
    if (!needs_shot(job, fact::offset, false)) return;
    both = own(job)(fact::lamp_distance) && of(job, reference)(fact::lamp_distance);
    const std::optional<Length> fallback = both ? std::nullopt : std::optional<Length>(100.0 * mm);
    if (!shot_of(own(job), job.view.taken_in_mirror, fallback) ||
        !shot_of(of(job, reference), reference.view.taken_in_mirror, fallback))
      return job.facts.put_unknown(fact::offset, missing::settings_of_view(reference.view.name));
    whether_there = job.facts.kept();
  }
  job.facts.told_by(whether_there);
  using Parts = physics::LightParts;
  set_part(job, reference, fact::offset_aperture, &Parts::aperture,
           [](auto& shot, const auto& get, const auto&) { shot.aperture = *get(fact::aperture); });
  set_part(job, reference, fact::offset_iso, &Parts::iso,
           [](auto& shot, const auto& get, const auto&) { shot.iso = *get(fact::iso); });
  set_part(job, reference, fact::offset_bellows, &Parts::bellows,
           [](auto& shot, const auto& get, const auto&) {
             shot.bellows = physics::bellows_factor(*get(fact::ratio), *get(fact::pupil_ratio));
           });
  if (both && has_form(job)) {
    set_part(job, reference, fact::offset_distance, &Parts::distance,
             [](auto& shot, const auto& get, const auto&) {
               shot.distance = *get(fact::lamp_distance);
             });
  } else if (job.has_kit()) {
    const Recording why(job.facts);
    const Fact* open = job.facts.find(fact::lamp_distance);
    job.open(question::lamp_distance_adds, open != nullptr && !open->why.empty() ? open->why
                                           : both ? missing::heads_apart()
                                                  : missing::settings_of_view(reference.view.name));
  }
  set_part(job, reference, fact::offset_mirror, &Parts::mirror,
           [](auto& shot, const auto& get, const model::View& view) {
             if (view.taken_in_mirror) shot.mirror_loss = *get(fact::mirror_loss);
           });
  {
    const Recording sum(job.facts);
    Stops all;
    for (const FactDef<Stops>* part :
         {&fact::offset_aperture, &fact::offset_iso, &fact::offset_bellows, &fact::offset_distance,
          &fact::offset_mirror})
      all = all + job.facts.get(*part).value_or(Stops{});
    job.facts.put(fact::offset, all);
  }
  const auto here = own(job)(fact::mirror_loss_spread);
  const auto there = of(job, reference)(fact::mirror_loss_spread);
  if (here || there)
    job.facts.put(fact::offset_spread,
                  std::hypot(here.value_or(Stops{}).in(stop), there.value_or(Stops{}).in(stop)) *
                      stop);
}

void set_stated(Job& job) {
  const auto& exposure = job.view.exposure;
  if (!exposure.known() || !exposure->offset) return;
  {
    const Recording whether(job.facts);
    if (job.camera_exposes() && job.facts.find(fact::offset) == nullptr)
      job.facts.put_unknown(fact::offset, missing::camera_exposes());
  }
  job.facts.put(fact::stated_offset, *exposure->offset);
  {
    const Recording one(job.facts);
    job.facts.note(Status::assumed);
    const Stops spread = job.facts.get(fact::mirror_loss_spread).value_or(Stops{});
    job.facts.put(fact::offset_tolerance, (1.0 / 3.0) * stop + spread);
  }
  job.facts.work_out(
      fact::offset_apart, [](Stops stated, Stops offset) { return stated - offset; },
      fact::stated_offset, fact::offset);
}

/// Power from the kit's reference shot, or from the guide number.
std::optional<Power> power_needed(Job& job, Said& missing) {
  const kit::Lamp& lamp = *job.lamp();
  const auto shot = shot_of(own(job), job.view.taken_in_mirror, std::nullopt);
  if (!shot) {
    missing = missing::working_distance();
    return std::nullopt;
  }
  const auto form = form_of(job);
  if (!form) {
    missing = missing::heads_apart();
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
    base.bellows = physics::bellows_factor(r.ratio.get(), pupil_at(job, r.ratio.get()));
    base.distance = r.distance.get();
    base.mirror_loss = r.mirror_loss.value_or(Stops{});
    const auto parts = physics::light_needed(*shot, base, *form);
    return physics::power_for(parts.total(), r.power.get());
  }
  if (lamp.guide_number.known()) {
    return physics::power_by_guide_number(
        physics::effective_f_number(shot->aperture, *job.facts.get(fact::ratio),
                                    *job.facts.get(fact::pupil_ratio)),
        shot->distance, lamp.guide_number.get(), shot->iso,
        shot->mirror_loss + job.facts.get(fact::filter_loss).value_or(Stops{}), *form);
  }
  missing = missing::reference_or_guide_number();
  return std::nullopt;
}

/// The next mark of the ISO scale from which on the flash has enough; nothing where the camera has
/// none so high. Marks: the preferred numbers of ISO 3, as cameras print them.
void set_iso_that_does(Job& job) {
  const Recording one(job.facts);
  constexpr double marks[] = {100, 125, 160, 200, 250, 320, 400, 500, 640, 800};
  constexpr double rounded = 1.02; // a mark stands for a number up to 2 % higher
  const Stops shortfall = *job.facts.get(fact::shortfall);
  const double needed = job.facts.get(fact::iso)->value() * std::exp2(shortfall.in(stop));
  const auto greatest = job.facts.get(fact::greatest_iso);
  for (double decade = 0.1; decade < 1e4; decade *= 10) {
    for (const double mark : marks) {
      if (mark * decade * rounded < needed) continue;
      if (!greatest || mark * decade <= greatest->value())
        job.facts.put(fact::iso_that_does, IsoSpeed{mark * decade});
      return;
    }
  }
}

/// False where it cannot be had.
bool set_power_needed(Job& job) {
  const Recording one(job.facts);
  if (job.camera_exposes()) {
    job.facts.put_unknown(fact::power_needed, missing::camera_exposes());
    return false;
  }
  if (!needs_shot(job, fact::power_needed, true)) return false;
  const kit::Lamp& lamp = *job.lamp();
  Said missing = missing::meter();
  std::optional<Power> needed;
  if (!lamp.light.known() || lamp.light.get() != kit::LampLight::steady)
    needed = power_needed(job, missing);
  if (!needed) {
    job.facts.put_unknown(fact::power_needed, missing);
    return false;
  }
  // More or less light than a right exposure; against another view it is held elsewhere.
  const auto& exposure = job.view.exposure;
  if (exposure.known() && exposure->offset && exposure->as_view.empty())
    needed = Power{needed->value() * std::exp2(exposure->offset->in(stop))};
  job.facts.put(fact::power_needed, *needed);
  return true;
}

void set_power(Job& job) {
  if (!set_power_needed(job)) return;
  const Recording one(job.facts);
  const text::Sourced<Power>& least = job.lamp()->least_power;
  const physics::PowerSetting setting = physics::power_setting(*job.facts.get(fact::power_needed),
                                                               least.value_or(Power{1.0 / 1024.0}));
  job.facts.put(fact::shortfall, setting.shortfall);
  if (least.known()) job.facts.put(fact::excess, setting.excess);
  if (setting.shortfall > Stops{}) {
    set_iso_that_does(job);
    return job.facts.put_impossible(fact::power, phrase::flash_has_less(), Power{1.0});
  }
  job.facts.put(fact::power, setting.set);
}

void set_power_spread(Job& job) {
  const Recording one(job.facts);
  if (!job.facts.has(fact::power)) return;
  if (const auto spread = job.facts.get(fact::mirror_loss_spread))
    job.facts.put(fact::power_spread, *spread);
}

} // namespace

void plan_light(Job& job, const Reference* reference) {
  set_settings(job);
  if (job.view.exposure.broken()) {
    job.facts.put_broken(fact::offset);
  } else if (reference != nullptr) {
    job.facts.put(fact::exposure_reference, reference->view.name);
    if (!reference->itself) set_offset(job, *reference);
  }
  set_stated(job);
  if (!job.has_kit()) return;
  set_power(job);
  set_power_spread(job);
}

} // namespace norma::plan
