// Puts into words what the rest of norma holds as values: findings, facts, questions, acts.
//
// The folder wording/ is the only place of sentences: one file of texts for each language, and how
// numbers, teeth and lists are written in it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "diag/sentence.hpp"

namespace norma::wording {

/// What is said, in English. A row that has no text yet comes out as its key (a test sees to it
/// that none does).
std::string text(const diag::Said& said);
/// An act, say, with its details: each behind a comma, or behind the sign its text starts with.
std::string text(const diag::Said& said, const std::vector<diag::Said>& details);
std::string text(const diag::Value& value);
std::string text(const diag::Measure& measure);

/// The text of a key as it stands in the file of the language, its arguments not yet put in; "" if
/// there is none.
std::string_view pattern(std::string_view key);
/// All keys of the file, in its order.
std::vector<std::string_view> keys();

} // namespace norma::wording
