// What can be told of a text by its tree alone: what is folded, what is selected next, what each
// word is.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::server {

/// Stretches that can be folded, each over several lines; comments that stand below each other are
/// one.
struct Fold {
  text::Span span;
  bool comment = false;
};
std::vector<Fold> folds_of(const syntax::Tree& tree, const text::Source& source);

/// What lies around a place, from a word outwards to the file.
std::vector<text::Span> around(const syntax::Tree& tree, const text::Source& source,
                               std::size_t offset);

/// What a word is, by the names of LSP 3.17 in their order.
enum class TokenType { keyword, enum_member, variable, string, number, comment, op };
std::vector<std::string_view> token_types();
struct Shade {
  text::Span span;
  TokenType type = TokenType::keyword;
  bool gives = false; // a name where it is given
};
std::vector<Shade> shades_of(const syntax::Tree& tree, const text::Source& source);

} // namespace norma::server
