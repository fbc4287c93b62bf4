// One row a key: all that norma knows about a key of a kit. The reader, the reference
// (docs/kit.md), the schema (docs/schema/kit.schema.json) and the words of `norma kit` come from
// it. No part of a row has a value of its own, so that none can be forgotten.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"

namespace norma::kit {

class Reader;
struct Row;
struct Yaml;

/// What can stand behind a key.
struct Form {
  enum class Value {
    edition,  // 1
    text,     // of `least` to `most` characters
    number,   // plain, or with `unit` behind it
    whole,    // a plain number without decimals
    length,   // mm
    time,     // s; over `least`
    angle,    // deg
    stops,    // stops, with or without a spread; from 0
    percent,  // %
    light,    // lx
    colour,   // K
    date,     // a day
    size,     // width x height, mm: limits of each side
    ratio,    // 1:2, as the magnification
    f_number, // a mark of the aperture scale
    power,    // a share of full power
    tooth,    // a number of ISO 3950
    choice,   // one of `words`
    block,    // of the keys `rows`
  };
  enum class Shape {
    one,
    ends,        // `a to b`
    list,        // [a, b]
    one_or_list, // a or [a, b]
    pairs,       // [[a, b], [c, d]]: 1 to `most_pairs`
    by_ratio,    // a table with a ratio in front of each value
  };
  static constexpr std::size_t most_pairs = 100;

  constexpr Form(Value what, Shape how, double low, double high, std::string_view unit_behind,
                 std::span<const std::string_view> one_of, std::vector<Row> (*keys)())
      : value(what), shape(how), least(low), most(high), unit(unit_behind), words(one_of),
        rows(keys) {}
  static constexpr Form range(Value what, double low, double high) {
    return {what, Shape::one, low, high, "", {}, nullptr};
  }
  static constexpr Form choice(Shape how, std::span<const std::string_view> one_of) {
    return {Value::choice, how, 0, 0, "", one_of, nullptr};
  }
  static constexpr Form block(Shape how, std::vector<Row> (*keys)()) {
    return {Value::block, how, 0, 0, "", {}, keys};
  }
  [[nodiscard]] constexpr Form as(Shape how) const {
    return {value, how, least, most, unit, words, rows};
  }

  Value value;
  Shape shape;
  double least; // both in the unit named beside the value
  double most;
  std::string_view unit;
  std::span<const std::string_view> words;
  std::vector<Row> (*rows)();
};

/// How `norma kit` says a value: a part of the line about its piece.
struct Said {
  constexpr explicit Said(std::string_view with_value, std::string_view in_front,
                          std::string_view other)
      : pattern(with_value), join(in_front), after(other) {}
  /// In front of it, where it is not the first part; `; ` is usual.
  [[nodiscard]] constexpr Said joined(std::string_view in_front) const {
    return Said(pattern, in_front, after);
  }
  /// Said behind the part of another key, not where it stands in the table.
  [[nodiscard]] constexpr Said behind(std::string_view other) const {
    return Said(pattern, join, other);
  }

  std::string_view pattern; // `{}` is the value; empty: not part of a line
  std::string_view join;
  std::string_view after; // name of a key
};
constexpr Said says(std::string_view pattern) { return Said(pattern, "; ", ""); }
/// A title, a name in front of its line, or lines and a heading of its own.
inline constexpr Said said_apart("", "", "");

/// What is said where nobody has given the value.
template <class T> struct Absence {
  constexpr Absence(bool needed, std::string_view value, std::string_view hangs_on_it,
                    std::string_view other, bool (*matters)(const T&))
      : required(needed), what(value), why(hangs_on_it), after(other), asked(matters) {}

  bool required;           // a kit without it is a finding
  std::string_view what;   // the value, `{}` the name of its piece; empty: nothing is said
  std::string_view why;    // what hangs on it
  std::string_view after;  // name of a key, as in Said
  bool (*asked)(const T&); // nothing: always
};

/// An absence that fits each section.
struct AnyAbsence {
  constexpr AnyAbsence(bool needed, std::string_view value, std::string_view hangs_on_it,
                       std::string_view other)
      : required(needed), what(value), why(hangs_on_it), after(other) {}
  template <class T> constexpr operator Absence<T>() const { // NOLINT: a row just names it
    return Absence<T>(required, what, why, after, nullptr);
  }
  /// Asked for only where `asked` says so.
  template <class T> [[nodiscard]] constexpr Absence<T> where(bool (*asked)(const T&)) const {
    return Absence<T>(required, what, why, after, asked);
  }
  /// Told behind the absence of another key, not where it stands in the table.
  [[nodiscard]] constexpr AnyAbsence behind(std::string_view other) const {
    return {required, what, why, other};
  }

  bool required;
  std::string_view what;
  std::string_view why;
  std::string_view after;
};
inline constexpr AnyAbsence required{true, "", "", ""};
/// Nothing hangs on it, or what norma takes then is the usual thing.
inline constexpr AnyAbsence not_missed{false, "", "", ""};
constexpr AnyAbsence missed(std::string_view what, std::string_view why) {
  return {false, what, why, ""};
}

/// The field of T that a key fills: how it is read, and how it is told.
template <class T> struct Field {
  constexpr Field(Form what, void (*reads)(Reader&, const Yaml&, const Form&, T&),
                  std::string (*tells)(const T&), bool (*lacks)(const T&),
                  void (*below)(const T&, std::string_view, std::vector<std::string>&))
      : form(what), read(reads), text(tells), absent(lacks), missing_below(below) {}
  /// Told in words of its own.
  [[nodiscard]] constexpr Field told(std::string (*tells)(const T&)) const {
    return {form, read, tells, absent, missing_below};
  }
  /// Absent where `lacks` says so.
  [[nodiscard]] constexpr Field lacking(bool (*lacks)(const T&)) const {
    return {form, read, text, lacks, missing_below};
  }

  Form form;
  void (*read)(Reader& reader, const Yaml& value, const Form& form, T& target);
  std::string (*text)(const T&); // empty where it is not known, or goes without saying
  bool (*absent)(const T&);      // nobody has written it
  /// A block's own missing values; nothing for others. The name is that of the piece around it.
  void (*missing_below)(const T&, std::string_view name, std::vector<std::string>& out);
};

/// The part of a row that needs no type: for the reference and the schema.
struct Row {
  constexpr Row(std::string_view key, Form what, bool needed, std::string_view sentence)
      : name(key), form(what), required(needed), help(sentence) {}

  std::string_view name;
  Form form;
  bool required;
  std::string_view help; // what it is, and how it is measured
};

template <class T> struct Key : Row {
  constexpr Key(std::string_view key, Field<T> target, Absence<T> without,
                std::string_view sentence, Said in_words)
      : Row(key, target.form, without.required, sentence), field(target), absence(without),
        said(in_words) {}

  Field<T> field;
  Absence<T> absence;
  Said said;
};

/// The keys of one block.
template <class T> struct Section {
  constexpr Section(std::string_view in_messages, std::span<const Key<T>> table,
                    void (*against_each_other)(Reader&, const T&))
      : what(in_messages), keys(table), check(against_each_other) {}

  std::string_view what; // "the lens"; of a list: one of its pieces, "a lamp"
  std::span<const Key<T>> keys;
  void (*check)(Reader& reader, const T& piece); // values against each other; may be nothing
};

template <class T> std::vector<Row> rows_of(const Section<T>& section) {
  return {section.keys.begin(), section.keys.end()};
}

/// One of the few words that a value may be: as a kit writes it, and as `norma kit` says it
/// (nothing where it goes without saying).
template <class E> struct Choice {
  constexpr Choice(std::string_view as_written, E what, std::string_view in_words)
      : word(as_written), value(what), said(in_words) {}
  std::string_view word;
  E value;
  std::string_view said;
};
/// `rows` of the words of E; they stand beside the tables that use them.
template <class E> struct Choices;

} // namespace norma::kit
