// What the fields of a plan file hold: numbers with their units, teeth, days, words, places.
//
// Lengths are millimetres, angles degrees. In space x runs to the patient's left, y backwards, z
// up; the origin is the contact of the upper central incisors on their edges. In a picture x runs
// to the right, y up, on the sensor, from the middle of the picture as shot.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "physics/anatomy/tooth.hpp"
#include "planfile/ids.hpp"

namespace norma::planfile {

inline constexpr int edition = 2;

using physics::Tooth;

/// The ids of an enum, in the order of its values: specialised beside each.
template <class E> struct Ids;

/// No key is left out: where there is no value, it is null.
template <class T> using Maybe = std::optional<T>;

// Single values -----------------------------------------------------------------------------------

/// What stands for a piece of text with a form of its own.
struct Day {
  std::string iso; // 2026-11-25
  friend bool operator==(const Day&, const Day&) = default;
};
struct Digest {
  std::string hex; // 64 digits
  friend bool operator==(const Digest&, const Digest&) = default;
};
/// A share of a whole, 0 to 1.
struct Part {
  double of_one = 0;
  friend bool operator==(const Part&, const Part&) = default;
};
/// A place in a list of the document, from 0.
struct Index {
  std::int64_t at = 0;
  friend bool operator==(const Index&, const Index&) = default;
};
/// A place in the picture, [x, y].
struct Flat {
  double x = 0, y = 0;
  friend bool operator==(const Flat&, const Flat&) = default;
};
/// A place or a direction in space, [x, y, z].
struct Solid {
  double x = 0, y = 0, z = 0;
  friend bool operator==(const Solid&, const Solid&) = default;
};
using Outline = std::vector<Flat>;

/// What a number counts, and in which unit.
enum class Unit {
  mm,
  deg,
  stop,
  s,
  lx,
  kelvin,
  mired,
  percent,
  f_number,
  ratio,
  power,
  iso,
  count,
  share,
  plain
};
template <> struct Ids<Unit> {
  static constexpr std::string_view type_name = "unit";
  static constexpr std::string_view type_about =
      "mm; deg; stop of exposure; s; lx; K, of colour; mired: a million over K; %; f_number: focal "
      "length over aperture; ratio: size on "
      "the "
      "sensor over size of the subject; power: share of the lamp's full power; iso: speed of the "
      "sensor; count: whole things; share: part of a whole, 0 to 1; plain: a number without unit";
  static constexpr std::string_view all[] = {"mm",    "deg",   "stop",  "s",        "lx",
                                             "K",     "mired", "%",     "f_number", "ratio",
                                             "power", "iso",   "count", "share",    "plain"};
};

struct Value;

struct Amount {
  Maybe<double> number; // nothing: without bound
  Unit unit = Unit::plain;
  bool spread = false; // goes both ways
  friend bool operator==(const Amount&, const Amount&) = default;
};
struct Extent {
  double width = 0;
  double height = 0;
  friend bool operator==(const Extent&, const Extent&) = default;
};
/// A word, phrase or sentence of norma's own, and what is put into it.
struct Row {
  RowId key;
  std::vector<Value> with;
  friend bool operator==(const Row&, const Row&);
};
/// One of the words that a clause of the language chooses from.
struct Symbol {
  std::string word;
  friend bool operator==(const Symbol&, const Symbol&) = default;
};
using Teeth = std::vector<Tooth>;

struct Value {
  std::variant<std::string, std::int64_t, Amount, Extent, Teeth, Row, Symbol, Day,
               std::vector<Value>>
      is;
  friend bool operator==(const Value& a, const Value& b) { return a.is == b.is; }
};
inline bool operator==(const Row& a, const Row& b) { return a.key == b.key && a.with == b.with; }

} // namespace norma::planfile
