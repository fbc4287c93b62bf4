// Literals of the language and of kit files: numbers with units, ratios, f-numbers, dates.
//
// The folder words/ is the language's dictionary: literals, teeth, view codes, and the one table
// of its words with their patterns. Syntax, kit and model all read text through it.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>

#include "physics/quantity.hpp"

namespace norma::words {

/// An exact number, reduced, denominator over 0.
struct Rational {
  std::int64_t numerator = 0;
  std::int64_t denominator = 1;

  [[nodiscard]] double value() const {
    return static_cast<double>(numerator) / static_cast<double>(denominator);
  }
  friend bool operator==(const Rational&, const Rational&) = default;
};
std::string to_text(Rational r);

enum class Dimension { none, length, angle, stops, time, percent, light, temperature };
/// "a length", "an angle", ... for messages.
std::string_view to_text(Dimension d);

/// The unit that quantities of a dimension are counted in: mm, deg, stop, s, %, lx, K.
std::string_view base_unit(Dimension d);

/// One row of the closed list of units: how it is written, what it measures, how many base units
/// (mm, deg, stop, s, percent, lx, K) it holds.
struct Unit {
  std::string_view name;
  Dimension dimension;
  Rational factor;
};
std::span<const Unit> units();
const Unit* find_unit(std::string_view name);

/// A number as written, with its unit (none where none stands there).
struct Measure {
  Rational number;
  const Unit* unit = nullptr;
  friend bool operator==(const Measure&, const Measure&) = default;
  [[nodiscard]] Dimension dimension() const { return unit ? unit->dimension : Dimension::none; }
  /// In base units of its dimension.
  [[nodiscard]] double in_base() const;
};

/// An f-number as engraved: 22 stands for 22.6.
struct FNumberLiteral {
  Rational number;
  friend bool operator==(const FNumberLiteral&, const FNumberLiteral&) = default;
};
struct RatioLiteral {
  Rational first;
  Rational second;
  friend bool operator==(const RatioLiteral&, const RatioLiteral&) = default;
};
struct Date {
  int year = 0;
  int month = 0;
  int day = 0;
  friend auto operator<=>(const Date&, const Date&) = default;
};
std::string to_text(Date d);
/// Days from 1970-01-01 (proleptic Gregorian calendar).
std::int64_t day_number(Date d);
/// Whole months that have passed from `from` to `to`; negative where `to` is earlier.
int months_between(Date from, Date to);

/// A number and how far it may be off: `0.5 +- 0.2 stop`.
struct Spread {
  Measure middle;
  std::optional<Measure> spread;
};

/// Why a literal could not be read.
enum class LiteralError {
  malformed,    // not of this form at all
  too_long,     // more digits than norma keeps (9 before the point, 6 after)
  zero,         // 1:0, f/0, 1/0
  no_such_date, // 2026-02-30
};

template <class T> using Literal = std::variant<T, LiteralError>;

/// `12`, `-0.5`, `1/3`.
Literal<Rational> parse_number(std::string_view text);
/// A number with or without unit: `22 mm`, `1/2 stop`, `30deg`, `0.5`.
Literal<Measure> parse_measure(std::string_view text);
/// A measure with or without `+- measure`; one unit stands for both.
Literal<Spread> parse_spread(std::string_view text);
/// `f/22`.
Literal<FNumberLiteral> parse_f_number(std::string_view text);
/// `1:2`, `1:1.5`.
Literal<RatioLiteral> parse_ratio(std::string_view text);
/// `2026-09-01`, a day that exists.
Literal<Date> parse_date(std::string_view text);
/// `36 x 24 mm`: width, then height, one unit for both.
struct SizeLiteral {
  Measure width;
  Measure height;
};
Literal<SizeLiteral> parse_size(std::string_view text);

/// Quantities of literals; the dimension must fit (see Measure::dimension).
Length length_of(const Measure& m);
Angle angle_of(const Measure& m);
Stops stops_of(const Measure& m);
Time time_of(const Measure& m);
ColourTemperature temperature_of(const Measure& m);
Magnification magnification_of(const RatioLiteral& r);

} // namespace norma::words
