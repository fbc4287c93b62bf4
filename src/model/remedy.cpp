#include "model/remedy.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <vector>

#include "text/suggest.hpp"
#include "words/meant.hpp"

namespace norma::model {
namespace {

using words::Problem;
using words::Token;
using words::TokenKind;

bool is_plain(const std::string& wanted) {
  for (const char* start : {"a ", "an ", "teeth", "width"}) {
    if (wanted.starts_with(start)) return false;
  }
  return true;
}

class Finder {
 public:
  Finder(const Problem& problem, const Trouble& trouble) : p_(problem), t_(trouble) {}

  std::optional<Remedy> find() {
    switch (p_.kind) {
    case Problem::Kind::unexpected: return unexpected();
    case Problem::Kind::missing_unit: return unit_missing();
    case Problem::Kind::unknown_unit: return unit_unknown();
    default: return std::nullopt;
    }
  }

 private:
  [[nodiscard]] const Token* token() const {
    return p_.token < t_.part.size() ? &t_.part[p_.token] : nullptr;
  }
  static Remedy put(text::Span at, std::string text, std::string help) {
    return {{at, std::move(text), false}, std::move(help)};
  }
  static Remedy replace(text::Span at, const std::string& text) {
    return put(at, text, fmt::format("did you mean `{}`?", text));
  }

  /// Does some clause of the word that may stand there read all of these tokens?
  [[nodiscard]] bool reads(std::span<const Token> tokens, bool first) const {
    if (tokens.empty()) return false;
    const std::span<const words::Clause> clauses = t_.word.word->clauses;
    const bool leads =
        std::any_of(clauses.begin(), clauses.end(), [](const words::Clause& c) { return c.leads; });
    for (std::size_t i = 0; i < clauses.size(); ++i) {
      if (leads && clauses[i].leads != first) continue;
      if (t_.word.patterns[i].match(tokens, t_.end).ok) return true;
    }
    return false;
  }

  std::optional<Remedy> unexpected() {
    const Token* t = token();
    if (t == nullptr) return std::nullopt;
    if (t->kind == TokenKind::comma) {
      return put(t->span, "", "leave this comma out");
    }
    if (const auto today = words::written_today(words::joined(t_.part))) {
      return replace(text::join(t_.part.front().span, t_.part.back().span), std::string(*today));
    }
    if (auto r = comma_missing(*t)) return r;
    if (t->text == "the" || t->text == "a" || t->text == "an") {
      return put(up_to_next(*t), "", fmt::format("leave `{}` out", t->text));
    }
    if (const auto value = words::meant_value(t->text, p_.wanted)) return replace(p_.span, *value);
    if (auto r = nearest()) return r;
    if (auto r = literal(*t)) return r;
    if (p_.wanted.size() == 1 && is_plain(p_.wanted[0])) return one_word(*t, p_.wanted[0]);
    return std::nullopt;
  }

  /// Just one word can stand here: before the token, or in its place.
  Remedy one_word(const Token& t, const std::string& word) {
    std::vector<Token> tokens(t_.part.begin(), t_.part.end());
    const Token wanted{TokenKind::word, word, t.span};
    tokens[p_.token] = wanted;
    if (reads(tokens, t_.first)) return replace(t.span, word);
    return put({t.span.file, t.span.begin, t.span.begin}, word + " ",
               fmt::format("write `{}` before it", word));
  }

  /// Two parts with a blank, or `and`, where a comma belongs.
  std::optional<Remedy> comma_missing(const Token& t) {
    const std::size_t at = p_.token;
    if (at == 0) return std::nullopt;
    const std::span<const Token> before = t_.part.first(at);
    if (!reads(before, t_.first)) return std::nullopt;
    const text::Span gap{t.span.file, t_.part[at - 1].span.end, t_.part[at - 1].span.end};
    if (reads(t_.part.subspan(at), false)) return put(gap, ",", "a comma parts the two");
    const bool joins = t.text == "and" || t.text == "with" || t.text == "plus" || t.text == "or";
    if (joins && reads(t_.part.subspan(at + 1), false)) {
      return put({gap.file, gap.begin, t.span.end}, ",",
                 fmt::format("write a comma in place of `{}`", t.text));
    }
    return std::nullopt;
  }

  /// The token with the blanks behind it.
  [[nodiscard]] text::Span up_to_next(const Token& t) const {
    const std::size_t next = p_.token + 1;
    return {t.span.file, t.span.begin,
            next < t_.part.size() ? t_.part[next].span.begin : t.span.end};
  }

  std::optional<Remedy> nearest() {
    std::vector<std::string_view> candidates;
    for (const std::string& w : p_.wanted) {
      if (is_plain(w)) candidates.emplace_back(w);
    }
    if (const auto near = text::nearest(p_.text, candidates)) {
      return replace(p_.span, std::string(*near));
    }
    return std::nullopt;
  }

  std::optional<Remedy> literal(const Token& t) {
    for (const std::string& w : p_.wanted) {
      if (w.starts_with("a ratio")) {
        if (const auto ratio = words::meant_ratio(t.text)) return replace(t.span, *ratio);
      } else if (w.starts_with("an f-number")) {
        if (const auto n = words::meant_f_number(t.text)) return replace(t.span, *n);
      } else if (w.starts_with("teeth") || w.starts_with("a tooth")) {
        if (const auto tooth = words::meant_tooth(t.text)) return replace(t.span, *tooth);
      } else if (w.starts_with("a text") && t.kind == TokenKind::word) {
        if (auto r = text_wanted(t)) return r;
      } else if (w == "a name" && t.kind == TokenKind::text && t.text.size() > 2) {
        const auto name = words::name_from(t.text.substr(1, t.text.size() - 2));
        if (name) {
          return put({t.span.file, t.span.begin, t.span.begin}, *name + " ",
                     fmt::format("write a name before its title: `{} {}`", *name, t.text));
        }
      } else if (w.starts_with("a number") && t.kind == TokenKind::word) {
        const std::size_t digit = t.text.find_first_of("0123456789");
        if (digit != std::string_view::npos && digit > 0) {
          return replace(t.span, std::string(t.text.substr(digit)));
        }
      }
    }
    return std::nullopt;
  }

  /// Words where a text belongs: between quotes they are one. Words before the title of a name are
  /// part of the name.
  std::optional<Remedy> text_wanted(const Token& t) {
    const Token& last = t_.part.back();
    if (last.kind == TokenKind::text && p_.token > 0 &&
        t_.part[p_.token - 1].kind == TokenKind::word) {
      const text::Span gap{t.span.file, t_.part[p_.token - 1].span.end, t.span.begin};
      return put(gap, "_", "a name is one word; parts are joined by `_`");
    }
    std::string text = "\"";
    for (std::size_t i = p_.token; i < t_.part.size(); ++i) {
      if (t_.part[i].kind == TokenKind::text) return std::nullopt;
      text += (i > p_.token ? " " : "") + std::string(t_.part[i].text);
    }
    text += '"';
    return put(text::join(t.span, last.span), text, "a text stands between quotes: " + text);
  }

  std::optional<Remedy> unit_missing() {
    const std::string& w = p_.wanted.front();
    const char* unit = w.starts_with("a length")            ? "mm"
                       : w.starts_with("an angle")          ? "deg"
                       : w.starts_with("a number of stops") ? "stop"
                       : w.starts_with("a time")            ? "s"
                                                            : nullptr;
    if (unit == nullptr) return std::nullopt;
    // A bare `125` for a time is how cameras print 1/125 s.
    const bool parts = t_.word.word->name == "shutter" && p_.text.size() >= 2 &&
                       p_.text.front() != '0' &&
                       p_.text.find_first_not_of("0123456789") == std::string::npos;
    if (parts) {
      return put(p_.span, fmt::format("1/{} s", p_.text),
                 fmt::format("write it with its unit: `1/{} s`", p_.text));
    }
    const text::Span behind{p_.span.file, p_.span.end, p_.span.end};
    return put(behind, fmt::format(" {}", unit),
               fmt::format("write its unit behind the number: `{} {}`", p_.text, unit));
  }

  std::optional<Remedy> unit_unknown() {
    const auto unit = words::meant_unit(p_.text);
    if (!unit) return std::nullopt;
    return replace(p_.span, *unit);
  }

  const Problem& p_;
  const Trouble& t_;
};

} // namespace

std::optional<Remedy> remedy_for(const Problem& problem, const Trouble& trouble) {
  return Finder(problem, trouble).find();
}

} // namespace norma::model
