// The one layout. Comments stay, meaning stays, and tidying twice changes nothing.
#pragma once

#include <string>

#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::syntax {

/// Statements are set in by two blanks for each block around them.
inline constexpr std::size_t indent_step = 2;
/// Values start in this column of a statement, whatever its word: a word more or less in a block
/// then moves no other line.
inline constexpr std::size_t value_column = 17;
/// A line that would be longer goes on in the next one, behind a comma.
inline constexpr std::size_t widest_line = 100;

/// The text of `tree` in that layout: UTF-8 without byte order mark, lines end in one line feed.
/// The parser must have made no finding about it.
std::string tidied(const Tree& tree, const text::Source& source);

/// A statement in that layout, without its indentation: `word`, its values from `value_column` on.
/// Shared with who writes statements that nobody typed.
std::string laid_out(std::string_view head, std::string_view values);

} // namespace norma::syntax
