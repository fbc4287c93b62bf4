// How a number is printed: one fixed step for each quantity, rounded half away from zero, so that
// every output and every machine shows the same digits.
#pragma once

#include <string>
#include <string_view>

#include "physics/quantity.hpp"

namespace norma::physics {

/// What a printed number is. The table behind it gives unit and step.
enum class Kind {
  length,      // mm, step 0.1
  fine_length, // mm, step 0.001: blur, ghost on the sensor
  angle,       // deg, step 0.1
  stops,       // stops, step 0.01
  time,        // s
  f_number,    // f/22; the mark where it is one, else with step 0.1
  ratio,       // 1:2.0, step 0.01 on the larger side
  power,       // 1/4; full power is 1/1
  iso,         // step 1
  illuminance, // lx, step 0.1
  temperature, // K, step 1: colour of light
  mired,       // step 1
  count,       // step 1
  share,       // %, step 1
  decimal,     // step 0.01
  tenths,      // step 0.1, no decimal that is zero
};

/// `value` rounded to whole steps of `step` (half away from zero), with as many decimals as the
/// step has. `step` is a power of ten from 0.001 to 1. Never prints "-0".
std::string fixed(double value, double step);

std::string to_text(Length l);
std::string to_text_fine(Length l);
std::string to_text(Angle a);
/// "0.50 stops"; with a sign where `sign` says so ("+0.50 stops").
std::string to_text(Stops s, bool sign = false);
/// "1/125 s" below half a second, else "2 s".
std::string to_text(Time t);
std::string to_text(FNumber n);
/// "1:2" or "2:1"; at most two decimals, none that are zero.
std::string to_text(Magnification m);
std::string to_text(Power p);
std::string to_text(IsoSpeed s);
std::string to_text(Illuminance e);
std::string to_text(ColourTemperature t);
/// "72.0 x 48.0 mm".
std::string to_text(Size s);

/// What stands behind a printed number; `off` stands alone.
enum class Unit {
  none,
  mm,
  degrees,
  stop,
  stops,
  seconds,
  lux,
  kelvin,
  mired,
  percent,
  of_full_power,
  off
};

/// A number as it is printed, apart from its unit: who words it writes both as a language does.
struct Written {
  std::string number;
  Unit unit = Unit::none;
};
/// A number of this kind, in its base unit; stops with their sign where `sign` says so.
Written written(Kind kind, double number, bool sign);
Written written(Size s);

/// The same with its unit, as it stands in a protocol and a kit.
std::string to_text(Kind kind, double number, bool sign);

/// The unit of a kind as it stands behind the number, "" where it has none.
std::string_view unit_of(Kind kind);
/// A number of a kind, given in its base unit, in the unit that `unit_of` names.
double in_its_unit(Kind kind, double base);

// Marked f-numbers ---------------------------------------------------------------------------

/// One mark of the aperture scale: what is engraved and what it stands for, 2^(thirds/6).
struct ApertureMark {
  std::string_view engraved;
  int thirds;
};
/// The exact f-number behind an engraved one, in third stops (22 is 2^(27/6) = 22.63); for half
/// stops too. Returns a number of 0 where `engraved` is no mark. Source: ISO 517 for the series.
FNumber exact_f_number(double engraved);
/// The exact f-number `thirds` third-stops above f/1.
FNumber f_number_of_thirds(int thirds);
/// The nearest number of third-stops above f/1.
int nearest_thirds(FNumber n);

} // namespace norma::physics
