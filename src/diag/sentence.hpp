// What is to be said, before it is put into words: the row of a sentence and its arguments, typed.
// The texts themselves stand in src/wording, one file for each language.
#pragma once

#include <compare>
#include <initializer_list>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "physics/anatomy/tooth.hpp"
#include "physics/quantity_text.hpp"

namespace norma::diag {

/// One row of a catalogue: the key of its text in every language, and how many arguments it has.
struct Row {
  std::string_view id;
  int arguments = 0;
};

/// A number of some kind, in its base unit. `spread`: it goes both ways and is printed without sign.
struct Measure {
  physics::Kind kind = physics::Kind::count;
  double number = 0;
  bool spread = false;
  friend auto operator<=>(const Measure&, const Measure&) = default;
};

using Teeth = std::vector<physics::Tooth>;

struct Value;

/// A row with its arguments; or, without a row, a text of the protocol or kit as it stands there.
struct Said {
  const Row* row = nullptr;
  std::vector<Value> arguments;
  std::string own;

  Said() = default;
  Said(const Row& r, std::vector<Value> values);
  // Texts become what is said where one is written: findings on a file's own words have no row.
  Said(std::string text);      // NOLINT(google-explicit-constructor)
  Said(std::string_view text); // NOLINT(google-explicit-constructor)
  Said(const char* text);      // NOLINT(google-explicit-constructor)

  [[nodiscard]] bool empty() const { return row == nullptr && own.empty(); }
  friend bool operator==(const Said& a, const Said& b);
  friend bool operator<(const Said& a, const Said& b);
};

/// Several things, told one after the other; parted by semicolons where they hold commas themselves.
struct List {
  std::vector<Value> items;
  bool semicolons = false;
  friend bool operator==(const List& a, const List& b);
  friend bool operator<(const List& a, const List& b);
};

/// An argument of a sentence.
struct Value {
  using Is = std::variant<std::string, int, Measure, Teeth, Said, List, Size>;
  Is is;

  /// Nothing: an empty text.
  Value() = default;
  Value(std::string text);       // NOLINT(google-explicit-constructor)
  Value(std::string_view text);  // NOLINT(google-explicit-constructor)
  Value(const char* text);       // NOLINT(google-explicit-constructor)
  Value(int number);             // NOLINT(google-explicit-constructor)
  Value(Measure measure);        // NOLINT(google-explicit-constructor)
  Value(Teeth teeth);            // NOLINT(google-explicit-constructor)
  Value(physics::Tooth tooth);   // NOLINT(google-explicit-constructor)
  Value(Said said);              // NOLINT(google-explicit-constructor)
  Value(List list);              // NOLINT(google-explicit-constructor)
  Value(Size size);              // NOLINT(google-explicit-constructor)
  Value(Length l);               // NOLINT(google-explicit-constructor)
  Value(Angle a);                // NOLINT(google-explicit-constructor)
  Value(Stops s);                // NOLINT(google-explicit-constructor)
  Value(Time t);                 // NOLINT(google-explicit-constructor)
  Value(FNumber n);              // NOLINT(google-explicit-constructor)
  Value(Magnification m);        // NOLINT(google-explicit-constructor)
  Value(Power p);                // NOLINT(google-explicit-constructor)
  Value(IsoSpeed s);             // NOLINT(google-explicit-constructor)
  Value(Illuminance e);          // NOLINT(google-explicit-constructor)
  Value(ColourTemperature t);    // NOLINT(google-explicit-constructor)

  [[nodiscard]] bool empty() const;
  friend bool operator==(const Value& a, const Value& b);
  friend bool operator<(const Value& a, const Value& b);
};

/// A row that takes `n` arguments: called with another number of them it does not compile.
template <int n> struct Sentence : Row {
  constexpr explicit Sentence(std::string_view key) : Row{key, n} {}
  template <class... Args> Said operator()(Args&&... values) const {
    static_assert(sizeof...(Args) == n, "the sentence takes another number of arguments");
    std::vector<Value> list;
    list.reserve(n);
    (list.emplace_back(std::forward<Args>(values)), ...);
    return {*this, std::move(list)};
  }
};

/// A word or phrase that stands for one thing, such as `level` or `the cheek`.
using Term = Sentence<0>;

} // namespace norma::diag
