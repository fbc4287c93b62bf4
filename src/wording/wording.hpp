// Puts into words what the rest of norma holds as values: findings, facts, questions, acts.
//
// The folder wording/ is the only place of sentences: one file of texts for each language, and how
// numbers, teeth and lists are written in it. Who prints is handed the language.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "diag/sentence.hpp"
#include "words/literal.hpp"

namespace norma::wording {

/// Rows of a language's own: `form::decimal_sign`.
namespace form {
#define NORMA_FORM(name, arguments) inline constexpr diag::Sentence<arguments> name{"form." #name};
#include "wording/forms.def"
#undef NORMA_FORM
} // namespace form

/// A day, as a language writes it.
[[nodiscard]] diag::Said day_said(words::Date day);

/// A language: a text for each row.
class Language {
 public:
  /// `texts`: its file, cut between lines; they outlive the language. `tag` by BCP 47.
  Language(std::string_view tag, std::span<const std::string_view> texts);

  [[nodiscard]] std::string_view tag() const { return tag_; }

  /// What is said. A row that has no text comes out as its key (a test sees to it that none does).
  [[nodiscard]] std::string text(const diag::Said& said) const;
  /// An act, say, with its details: each behind a comma, or behind the sign its text starts with.
  [[nodiscard]] std::string text(const diag::Said& said,
                                 const std::vector<diag::Said>& details) const;
  [[nodiscard]] std::string text(const diag::Value& value) const;
  [[nodiscard]] std::string text(const diag::Measure& measure) const;
  [[nodiscard]] std::string text(const Size& size) const;
  [[nodiscard]] std::string text(const diag::Teeth& teeth) const;
  [[nodiscard]] std::string text(const diag::List& list) const;

  /// The text of a key as it stands in the file, its arguments not yet put in; "" if there is none.
  [[nodiscard]] std::string_view pattern(std::string_view key) const;
  /// All keys of the file, in its order.
  [[nodiscard]] const std::vector<std::string_view>& keys() const { return keys_; }

 private:
  [[nodiscard]] std::string text(physics::Written written) const;

  std::string_view tag_;
  std::vector<std::string_view> keys_;
  std::unordered_map<std::string_view, std::string_view> texts_;
};

#define NORMA_LANGUAGE(name, tag) const Language& name();
#include "wording/languages.def"
#undef NORMA_LANGUAGE

/// All of them, in the order of languages.def; the first is the one to take where nobody chooses.
std::vector<const Language*> languages();

} // namespace norma::wording
