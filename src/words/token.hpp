// What a statement is made of once it is read: tokens, and the values patterns make of them.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "physics/anatomy/tooth.hpp"
#include "text/source.hpp"
#include "words/literal.hpp"

namespace norma::words {

enum class TokenKind { word, text, number, ratio, f_number, date, comma, equals, plus_minus };

/// A piece of a statement; a number's text holds its unit too.
struct Token {
  TokenKind kind = TokenKind::word;
  std::string_view text;
  text::Span span;
};

/// One of a pattern's words that were open to choice, as the pattern spells it: `small end`.
struct Symbol {
  std::string text;
  friend bool operator==(const Symbol&, const Symbol&) = default;
};
/// A name that the protocol gives: of a view, a series, the protocol.
struct Name {
  std::string text;
  friend bool operator==(const Name&, const Name&) = default;
};
/// What stood between quotes, with `\"` and `\\` resolved.
struct Quoted {
  std::string text;
  friend bool operator==(const Quoted&, const Quoted&) = default;
};
/// A standard view code, as in the table of codes.
struct Code {
  std::string text;
  friend bool operator==(const Code&, const Code&) = default;
};
/// Teeth in a row along one jaw, from the first to the last as written.
struct ToothRun {
  physics::Tooth first;
  physics::Tooth last;
  friend bool operator==(const ToothRun&, const ToothRun&) = default;
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
    return s != nullptr ? std::string_view(s->text) : std::string_view();
  }
};

/// The text between the quotes of `literal`, with its escapes resolved; the offset of the first
/// backslash that escapes neither a quote nor a backslash, where there is one.
struct Unquoted {
  std::string text;
  std::size_t bad_escape = std::string::npos;
};
Unquoted unquote(std::string_view literal);

} // namespace norma::words
