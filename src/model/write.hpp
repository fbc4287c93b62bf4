// Statements back to text, in the one way norma writes them.
#pragma once

#include <string>
#include <string_view>

#include "model/statement.hpp"

namespace norma::model {

/// What stands behind the word: `tension firm, outwards and back`. "" where nothing does.
std::string values_text(const Statement& s);
std::string part_text(const Part& part);
/// The whole statement without its block: `retractor right tension firm, outwards and back`.
std::string to_text(const Statement& s);
/// `text` between quotes, with its quotes and backslashes escaped.
std::string quoted(std::string_view text);
/// A value as it is written: `22 mm`, `13 to 16`, `"text"`.
std::string to_text(const words::Value& v);

} // namespace norma::model
