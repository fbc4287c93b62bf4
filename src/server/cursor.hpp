// What stands at a place of a protocol: its statement, and which words may stand there.
#pragma once

#include <optional>
#include <vector>

#include "syntax/tree.hpp"
#include "text/source.hpp"
#include "words/token.hpp"
#include "words/vocabulary.hpp"

namespace norma::server {

/// The values of an item as tokens; a number takes its unit along.
std::vector<words::Token> tokens_of(syntax::NodeView item, const text::Source& source);

/// Which words may stand in the block of an item; 0 for a block that none takes.
unsigned inside(syntax::NodeView item, unsigned place, const text::Source& source);

struct Spot {
  unsigned place = words::in_file;      // which words may stand here
  std::vector<syntax::NodeView> around; // items whose blocks hold the place, from the outside
  /// The statement that the place lies in or right behind; nothing between statements.
  std::optional<syntax::NodeView> item;
};

Spot spot_at(const syntax::Tree& tree, const text::Source& source, std::size_t offset);

/// The word that a statement starts with.
struct Head {
  const words::CompiledWord* word = nullptr; // null: none of the language
  std::size_t used = 0;   // how many tokens `also` or `no`, the word, and its key take
  bool removes = false;   // behind `no`
  bool needs_key = false; // and has none
};
Head head_of(std::span<const words::Token> tokens, unsigned place);

} // namespace norma::server
