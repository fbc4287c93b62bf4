// What a statement is made of once it is read: tokens, and the values patterns make of them.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <variant>

#include "physics/anatomy/tooth.hpp"
#include "text/source.hpp"
#include "words/literal.hpp"
#include "words/teeth.hpp"

namespace norma::words {

enum class TokenKind { word, text, number, ratio, f_number, date, comma, equals, plus_minus };

/// A piece of a statement; a number's text holds its unit too.
struct Token {
  TokenKind kind = TokenKind::word;
  std::string_view text;
  text::Span span;
};

/// Their texts, with a blank between two.
std::string joined(std::span<const Token> tokens);

// Values own nothing: their texts lie in the word table or in the source they were read from.

/// One of a pattern's words that were open to choice, as the pattern spells it: `small end`.
struct Symbol {
  std::string_view text;
  friend bool operator==(const Symbol&, const Symbol&) = default;
};
/// A name that the protocol gives: of a view, a series, the protocol.
struct Name {
  std::string_view text;
  friend bool operator==(const Name&, const Name&) = default;
};
/// What stood between quotes, as written.
struct Quoted {
  std::string_view written;
  /// With `\"` and `\\` resolved.
  [[nodiscard]] std::string text() const;
  friend bool operator==(const Quoted&, const Quoted&) = default;
};
/// A standard view code, as in the table of codes.
struct Code {
  std::string_view text;
  friend bool operator==(const Code&, const Code&) = default;
};
/// Width and height.
struct Rectangle {
  Measure width;
  Measure height;
  friend bool operator==(const Rectangle&, const Rectangle&) = default;
};
/// What a pattern makes of one or more tokens, with its place.
struct Value {
  std::variant<Symbol, Name, Quoted, Code, Measure, RatioLiteral, FNumberLiteral, Date, ToothRun,
               Rectangle>
      data;
  text::Span span;

  template <class T> [[nodiscard]] const T* as() const { return std::get_if<T>(&data); }
  /// The text of a symbol, "" for anything else.
  [[nodiscard]] std::string_view symbol() const {
    const Symbol* s = as<Symbol>();
    return s != nullptr ? s->text : std::string_view();
  }
};

/// Has `literal`, a text with its quotes, a backslash that escapes neither a quote nor a backslash?
bool has_bad_escape(std::string_view literal);

} // namespace norma::words
