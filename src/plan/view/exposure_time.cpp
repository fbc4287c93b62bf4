// What happens while the shutter is open: the room's light, the flash's moment, movement.
#include "physics/exposure.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

bool steady(const kit::Lamp& lamp) {
  return lamp.light.known() && lamp.light.get() == kit::LampLight::steady;
}

void set_sync(Job& job, const kit::Lamp& lamp) {
  if (steady(lamp)) return;
  if (lamp.shortest_shutter.known()) {
    job.facts.set(fact::shortest_shutter, lamp.shortest_shutter.get(), Status::measured);
    if (job.view.shutter.absent()) job.open(question::shutter_open, missing::shutter());
  } else if (lamp.shortest_shutter.broken()) {
    job.facts.set_broken(fact::shortest_shutter);
  } else if (job.view.shutter.known()) {
    job.facts.set_unknown(fact::shortest_shutter, missing::shortest_shutter());
  }
}

void set_room_light(Job& job) {
  const kit::Kit& kit = *job.kit;
  if (kit.room_light.broken()) {
    job.facts.set_broken(fact::room_light);
    return;
  }
  if (kit.room_light.absent()) {
    job.facts.set_unknown(fact::room_light, missing::room_light());
    return;
  }
  job.facts.set(fact::room_light, kit.room_light.get(), Status::measured);
  const LimitValue limit = job.limit(physics::defaults::ambient_margin);
  job.facts.set(fact::room_light_limit, limit.value * stop, limit.status);
  const std::vector<const FactRow*> from{&fact::room_light, &fact::effective_f_number, &fact::iso,
                                         &fact::shutter};
  const auto n = job.facts.get(fact::effective_f_number);
  const auto iso = job.facts.get(fact::iso);
  const auto shutter = job.facts.get(fact::shutter);
  if (!shutter) return job.open(question::room_light, missing::shutter());
  if (!iso) return job.open(question::room_light, missing::iso());
  if (!n) return job.open(question::room_light, missing::aperture_to_set());
  if (kit.room_light.get() <= Illuminance{}) return; // dark: nothing can show
  job.facts.derive(fact::room_light_under,
                   physics::ambient_under_flash(kit.room_light.get(), *n, *iso, *shutter), from,
                   Status::published);
}

void set_movement(Job& job, const kit::Lamp& lamp) {
  if (steady(lamp)) {
    const auto shutter = job.facts.get(fact::shutter);
    if (!shutter) {
      job.facts.set_unknown(fact::light_time, missing::shutter());
      return;
    }
    job.facts.derive(fact::light_time, *shutter, {&fact::shutter});
  } else if (lamp.flash_duration.known()) {
    job.facts.set(fact::light_time, lamp.flash_duration.get(), Status::measured);
  } else if (lamp.flash_duration.broken()) {
    job.facts.set_broken(fact::light_time);
    return;
  } else {
    job.facts.set_unknown(fact::light_time, missing::flash_duration());
    return;
  }
  const LimitValue moves = job.limit(physics::defaults::patient_moves);
  job.facts.set(fact::movement, moves.value * mm, moves.status);
  const auto ratio = job.facts.get(fact::ratio);
  if (!ratio) return; // said by the scale
  job.facts.derive(
      fact::movement_blur,
      physics::movement_blur(moves.value * mm / second, *job.facts.get(fact::light_time), *ratio),
      {&fact::movement, &fact::light_time, &fact::ratio});
}

} // namespace

void plan_exposure_time(Job& job) {
  if (job.kit == nullptr || job.out.chosen.lamp == nullptr) return;
  const kit::Lamp& lamp = *job.out.chosen.lamp;
  set_sync(job, lamp);
  if (!steady(lamp)) set_room_light(job);
  set_movement(job, lamp);
}

} // namespace norma::plan
