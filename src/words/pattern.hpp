// Patterns: how the values of a word may stand, written as a line of text in the word table.
//
//   held by (patient|assistant)   plain words stand as they are; one of the choice is kept
//   @f_number [to @f_number]      @kind takes a literal; what is in [] may be left out
//
// Kinds: number count length angle stops time temperature size ratio f_number date tooth teeth name
// text code word (a word of the language that stands in a view).
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "words/token.hpp"

namespace norma::words {

/// Why tokens do not fit a pattern.
struct Problem {
  enum class Kind {
    none,
    unexpected,   // another word or literal is wanted: `wanted`; none: nothing more belongs here
    ended,        // more is wanted: `wanted`
    missing_unit, // a number without the unit that `wanted` names
    unknown_unit,
    wrong_unit,
    out_of_range,
    not_a_tooth,
    across_jaws,
    not_a_mark,
    no_such_date,
    unknown_code,
    bad_escape,
  };
  Kind kind = Kind::none;
  std::size_t token = 0;           // index of the token it stands at
  text::Span span;                 // of what cannot stand there
  std::string text;                // ditto, as written
  std::vector<std::string> wanted; // words as they are, literals as "a length"
  std::string detail;              // what else there is to say
};

/// What a match is made of, in order: a plain word of the pattern, or one of the values.
struct Piece {
  static constexpr std::size_t plain = static_cast<std::size_t>(-1);
  std::string_view word;     // of the pattern
  std::size_t value = plain; // index of a value
};

/// What patterns made of tokens; those that fit one after the other add to it.
struct Reading {
  std::vector<Value> values;
  std::vector<Piece> pieces; // the values are numbered from the first one of their pattern

  void clear() {
    values.clear();
    pieces.clear();
  }
};

struct Match : Reading {
  bool ok = false;
  Problem problem; // the furthest one
};

class Pattern {
 public:
  /// `text` stays where it is while the program runs: what is read refers to it.
  explicit Pattern(std::string_view text);
  /// Do `tokens` fit, all of them? Then what is made of them is added to `reading`.
  bool read(std::span<const Token> tokens, Reading& reading) const;
  /// The same, with the reason where they do not; their statement ends at `end`.
  [[nodiscard]] Match match(std::span<const Token> tokens, text::Span end) const;
  /// What its choices may read: `small end`.
  [[nodiscard]] std::vector<std::string_view> symbols() const;
  /// Every plain word and every word of a choice.
  [[nodiscard]] std::vector<std::string> words() const;

 private:
  enum class Kind {
    literal,
    choice,
    option,
    number,
    count,
    length,
    angle,
    stops,
    time,
    temperature,
    size,
    ratio,
    f_number,
    date,
    tooth,
    teeth,
    name,
    text,
    code,
    word,
  };
  struct Choice {
    std::string_view text; // as it stands in the pattern
    std::vector<std::string_view> words;
  };
  struct Element {
    Kind kind = Kind::literal;
    std::string_view word;       // literal
    std::vector<Choice> choices; // choice, longest first
    std::vector<Element> inner;  // option
  };
  struct State;
  static std::vector<Element> compile(std::string_view& rest, bool inside);
  static bool run(const std::vector<Element>& elements, State& state);
  static bool run_whole(const std::vector<Element>& elements, State& state);
  static bool take(const Element& element, State& state);
  static bool take_literal(const Element& element, State& state);
  static bool take_choice(const Element& element, State& state);
  static bool take_number(Kind kind, State& state);
  static bool take_tooth(Kind kind, State& state);
  static bool take_word(State& state);
  static void collect_symbols(const std::vector<Element>& elements,
                              std::vector<std::string_view>& out);
  static void collect_words(const std::vector<Element>& elements, std::vector<std::string>& out);
  static std::string_view describe(Kind kind);

  std::vector<Element> elements_;
};

} // namespace norma::words
