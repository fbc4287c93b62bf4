// Flash exposure: one shot against another, guide numbers, power steps; and what the room's light
// and movement do to a flash picture.
#pragma once

#include <optional>

#include "physics/quantity.hpp"

namespace norma::physics {

/// What a flash shot's brightness depends on.
struct Shot {
  FNumber aperture{1};
  IsoSpeed iso{100};
  double bellows = 1; // B = 1 + m/P
  Length distance;    // lamp to subject
  Power power{1};
  Stops mirror_loss;
};

/// How much more light each cause asks for in one shot than in another; positive = more is needed.
struct LightParts {
  Stops aperture;
  Stops iso;
  Stops bellows;
  Stops distance;
  Stops mirror;
  [[nodiscard]] Stops total() const { return aperture + iso + bellows + distance + mirror; }
};

/// How a lamp lies around the axis of the lens.
struct LampForm {
  enum class Kind { point, ring, two_heads };
  Kind kind = Kind::point;
  Length off_axis; // a ring's radius; of two heads, one on each side, how far each is beside it
};

/// Relative light of a lamp on the axis at distance d, of one point or head 1/d^2. A ring of radius
/// R: d^2/(d^2 + R^2)^2 (each part at sqrt(d^2 + R^2), its light aslant at both ends). Two heads
/// at R, turned to the subject: 2 d/(d^2 + R^2)^1.5, aslant where it falls; side by side on the axis
/// twice a point's, a stop more. Source: geometry, inverse square and cosine laws; light adds up.
double relative_light(Length distance, const LampForm& form);

/// The parts by which `shot` needs more light than `reference` at the same power:
/// 2 log2(N/N0), log2(S0/S), 2 log2(B/B0), the lamp's distance, loss - loss0.
LightParts light_needed(const Shot& shot, const Shot& reference, const LampForm& form);

/// Power that makes `shot` as bright as the reference shot was at its own power.
Power power_for(Stops more_light, Power reference);

/// Power by guide number (length, at ISO 100 and full power): N_eff d = GN sqrt(S/100), and the
/// mirror's loss on top. Source: definition of the guide number (ISO 1230). Two heads: that of one
/// of them, which is to give what `relative_light` has it give.
Power power_by_guide_number(FNumber effective, Length distance, Length guide_number, IsoSpeed iso,
                            Stops mirror_loss, const LampForm& form = {});

/// A power that can be set, in thirds of a stop from full power down to `least`.
struct PowerSetting {
  Power set;       // the nearest step; a tie goes to more light
  Stops shortfall; // light missing at full power, told before rounding; 0 where none is
  Stops excess;    // light too much at least power, ditto
  Stops residual;  // brightness of the picture as set, less the one wanted; + is brighter
};
PowerSetting power_setting(Power needed, Power least);

/// How far the room's light alone stays under a right exposure: log2(C N_eff^2 / (S E t)), C the
/// constant of incident-light meters. Under about 5 stops it begins to show. Source: ISO 2720; C =
/// 250 lx s gives 2.5 lx at EV 0 and ISO 100.
Stops ambient_under_flash(Illuminance room, FNumber effective, IsoSpeed iso, Time shutter);

/// Smear on the sensor by a movement across the picture while the flash burns: v t m.
Length movement_blur(Speed speed, Time flash, Magnification m);

/// A shutter at least as long as the shortest one that is open all over at once for the flash.
bool in_sync(Time shutter, Time shortest);

} // namespace norma::physics
