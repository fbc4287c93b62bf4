#include "physics/exposure.hpp"

#include <algorithm>
#include <cmath>

#include "physics/defaults.hpp"

namespace norma::physics {

double relative_light(Length distance, const LampForm& form) {
  const double d2 = std::pow(distance.in(mm), 2);
  const double r2 = std::pow(form.off_axis.in(mm), 2);
  switch (form.kind) {
  case LampForm::Kind::point: break;
  case LampForm::Kind::ring: return d2 / std::pow(d2 + r2, 2);
  case LampForm::Kind::two_heads: return 2.0 * distance.in(mm) / std::pow(d2 + r2, 1.5);
  }
  return 1.0 / d2;
}

LightParts light_needed(const Shot& shot, const Shot& reference, const LampForm& form) {
  LightParts parts;
  parts.aperture = 2.0 * std::log2(shot.aperture.value() / reference.aperture.value()) * stop;
  parts.iso = std::log2(reference.iso.value() / shot.iso.value()) * stop;
  parts.bellows = 2.0 * std::log2(shot.bellows / reference.bellows) * stop;
  parts.distance =
      std::log2(relative_light(reference.distance, form) / relative_light(shot.distance, form)) *
      stop;
  parts.mirror = shot.mirror_loss - reference.mirror_loss;
  return parts;
}

Power power_for(Stops more_light, Power reference) {
  return Power{reference.value() * std::exp2(more_light.in(stop))};
}

Power power_by_guide_number(FNumber effective, Length distance, Length guide_number, IsoSpeed iso,
                            Stops mirror_loss, const LampForm& form) {
  const double needed = effective.value() * (distance / guide_number);
  const double heads = form.kind == LampForm::Kind::two_heads
                           ? relative_light(distance, form) / relative_light(distance, {})
                           : 1.0;
  return Power{needed * needed * (100.0 / iso.value()) * std::exp2(mirror_loss.in(stop)) / heads};
}

PowerSetting power_setting(Power needed, Power least) {
  const double stops = std::log2(needed.value());
  const double floor_stops = std::log2(least.value());
  PowerSetting out;
  // What rounds to the last step is that step: less than half a third is missing nowhere.
  constexpr double half_step = 1.0 / 6.0 - 1e-9;
  if (stops > half_step) out.shortfall = stops * stop;
  if (stops < floor_stops - half_step) out.excess = (floor_stops - stops) * stop;
  // Thirds below full power; on a tie floor() takes the step with more light.
  const double thirds = std::floor(-3.0 * stops + 0.5 - 1e-9);
  const double lowest = std::round(-3.0 * floor_stops);
  out.set = Power{std::exp2(-std::clamp(thirds, 0.0, lowest) / 3.0)};
  out.residual = std::log2(out.set.value() / needed.value()) * stop;
  return out;
}

Stops ambient_under_flash(Illuminance room, FNumber effective, IsoSpeed iso, Time shutter) {
  const LightExposure c = defaults::meter_constant.value * (lux * second);
  const double n = effective.value();
  return std::log2(c / (room * shutter) * n * n / iso.value()) * stop;
}

Length movement_blur(Speed speed, Time flash, Magnification m) { return speed * flash * m.value(); }

bool in_sync(Time shutter, Time shortest) { return shutter >= shortest; }

} // namespace norma::physics
