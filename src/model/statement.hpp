// Statements: items of the tree whose word is known and whose values have been read by its
// patterns. Merging and deriving work on these; only then are they lowered to typed values.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diag/diagnostic.hpp"
#include "syntax/tree.hpp"
#include "text/source.hpp"
#include "words/token.hpp"
#include "words/vocabulary.hpp"

namespace norma::model {

/// What a statement does to what is inherited.
enum class Mention {
  says, // takes its place
  also, // adds to it
  no,   // removes it
};

/// One part of a statement (between commas) that fits a clause of its word.
struct Part {
  const words::Clause* clause = nullptr;
  std::vector<words::Value> values;
  std::vector<words::Piece> pieces; // how they read
  text::Span span;
};

struct Statement {
  const words::Word* word = nullptr;
  Mention mention = Mention::says;
  std::string key; // left or right for a keyed word, else ""
  std::vector<Part> parts;
  text::Span head; // the word itself
  text::Span span; // the statement without its block
  bool broken = false;
  bool met = false;  // `no` found something to remove
  text::Span also{}; // of the last `also` that added parts
  /// The statement of a base view it was derived from stands here too; for `from` in explanations.
  bool derived = false;

  [[nodiscard]] const Part* part(std::string_view slot) const;
  [[nodiscard]] bool has(std::string_view slot) const { return part(slot) != nullptr; }
  /// The first value of the part in `slot`; null where there is none.
  [[nodiscard]] const words::Value* value(std::string_view slot) const;
  /// The symbol there, "" where there is none.
  [[nodiscard]] std::string_view symbol(std::string_view slot) const;
};

/// The block of an item, where it has one.
std::optional<syntax::NodeView> block_of(syntax::NodeView item);

/// Reads one item that stands in `place` (called `place_name` in messages). Nothing where the word
/// is unknown or misplaced (reported). A statement with values that do not fit is broken
/// (reported, or reported by the parser).
std::optional<Statement> read_statement(syntax::NodeView item, unsigned place,
                                        std::string_view place_name, const text::Sources& sources,
                                        diag::Findings& findings);

} // namespace norma::model
