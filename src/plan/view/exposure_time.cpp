// What happens while the shutter is open: the room's light, the flash's moment, movement.
#include "physics/exposure.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

bool steady(const kit::Lamp& lamp) {
  return lamp.light.known() && lamp.light.get() == kit::LampLight::steady;
}

void set_sync(Job& job) {
  const Recording one(job.facts);
  const kit::Lamp& lamp = *job.lamp();
  if (steady(lamp)) return;
  if (lamp.shortest_shutter.known()) {
    job.facts.put(fact::shortest_shutter, lamp.shortest_shutter.get());
    if (job.camera_exposes()) {
      job.open(question::shutter_open, missing::camera_exposes());
    } else if (job.view.shutter.absent()) {
      job.open(question::shutter_open, missing::shutter());
    }
  } else if (lamp.shortest_shutter.broken()) {
    job.facts.put_broken(fact::shortest_shutter);
  } else if (job.view.shutter.known()) {
    job.facts.put_unknown(fact::shortest_shutter, missing::shortest_shutter());
  }
}

/// The kit's; nothing where it is not known.
std::optional<Illuminance> set_room_light(Job& job) {
  const Recording one(job.facts);
  const auto& light = job.kit()->room_light;
  if (light.broken()) {
    job.facts.put_broken(fact::room_light);
    return std::nullopt;
  }
  if (light.absent()) {
    job.facts.put_unknown(fact::room_light, missing::room_light());
    return std::nullopt;
  }
  job.facts.put(fact::room_light, light.get());
  return light.get();
}

void set_room_light_under(Job& job) {
  const Recording flash(job.facts);
  if (steady(*job.lamp())) return;
  const auto light = set_room_light(job);
  if (!light) return;
  job.give_limit(fact::room_light_limit, physics::defaults::ambient_margin);
  const Recording one(job.facts);
  if (job.camera_exposes()) return job.open(question::room_light, missing::camera_exposes());
  if (!job.facts.has(fact::shutter)) return job.open(question::room_light, missing::shutter());
  if (!job.facts.has(fact::iso)) return job.open(question::room_light, missing::iso());
  if (!job.facts.has(fact::effective_f_number))
    return job.open(question::room_light, missing::aperture_to_set());
  if (*light <= Illuminance{}) return; // dark: nothing can show
  job.facts.take(physics::defaults::meter_constant);
  if (job.facts.has(fact::filter_loss)) {
    job.facts.work_out(
        fact::room_light_under,
        [](Illuminance room, FNumber effective, IsoSpeed iso, Time shutter, Stops filter) {
          return physics::ambient_under_flash(room, effective, iso, shutter) + filter;
        },
        fact::room_light, fact::effective_f_number, fact::iso, fact::shutter, fact::filter_loss);
    return;
  }
  job.facts.work_out(fact::room_light_under, physics::ambient_under_flash, fact::room_light,
                     fact::effective_f_number, fact::iso, fact::shutter);
}

/// False where it is not known.
bool set_light_time(Job& job) {
  const Recording one(job.facts);
  const kit::Lamp& lamp = *job.lamp();
  if (steady(lamp)) {
    const auto shutter = job.facts.get(fact::shutter);
    if (shutter) {
      job.facts.put(fact::light_time, *shutter);
    } else {
      job.facts.put_unknown(fact::light_time,
                            job.camera_exposes() ? missing::camera_exposes() : missing::shutter());
    }
    return shutter.has_value();
  }
  if (lamp.flash_duration.known()) {
    job.facts.put(fact::light_time, lamp.flash_duration.get());
  } else if (lamp.flash_duration.broken()) {
    job.facts.put_broken(fact::light_time);
  } else {
    job.facts.put_unknown(fact::light_time, missing::flash_duration());
  }
  return lamp.flash_duration.known();
}

void set_movement(Job& job) {
  if (!set_light_time(job)) return;
  job.give_limit(fact::movement, physics::defaults::patient_moves);
  if (!job.facts.has(fact::ratio)) return; // said by the scale
  job.facts.work_out(
      fact::movement_blur,
      [](Length in_a_second, Time open, Magnification m) {
        return physics::movement_blur(in_a_second / second, open, m);
      },
      fact::movement, fact::light_time, fact::ratio);
}

} // namespace

void plan_exposure_time(Job& job) {
  {
    const Recording one(job.facts);
    if (!job.has_kit() || job.lamp() == nullptr) return;
  }
  set_sync(job);
  set_room_light_under(job);
  set_movement(job);
}

} // namespace norma::plan
