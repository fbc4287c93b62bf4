// Statements: items of the tree whose word is known and whose values have been read by its
// patterns. Merging and deriving work on these; only then are they lowered to typed values.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "diag/diagnostic.hpp"
#include "model/parts.hpp"
#include "syntax/tree.hpp"
#include "text/source.hpp"
#include "words/token.hpp"
#include "words/vocabulary.hpp"

namespace norma::model {

/// What a statement does to what is inherited.
enum class Mention : std::uint8_t {
  says, // takes its place
  also, // adds to it
  no,   // removes it
};

struct Statement {
  const words::Word* word = nullptr;
  std::string_view key; // of the row of a keyed word: left or right; else ""
  /// Places in them are read with `place`.
  Parts parts;
  text::Span head;         // the word itself
  text::Span span;         // the statement without its block
  std::uint32_t shift = 0; // from where its parts were read to where it stands; may wrap
  text::Span also{};       // of the last `also` that added parts
  Mention mention = Mention::says;
  bool broken = false;
  bool met = false; // `no` found something to remove
  /// The statement of a base view it was derived from stands here too; for `from` in explanations.
  bool derived = false;

  [[nodiscard]] const Part* part(std::string_view slot) const;
  [[nodiscard]] bool has(std::string_view slot) const { return part(slot) != nullptr; }
  /// The first value of the part in `slot`; null where there is none.
  [[nodiscard]] const words::Value* value(std::string_view slot) const;
  /// The symbol there, "" where there is none.
  [[nodiscard]] std::string_view symbol(std::string_view slot) const;

  /// Where a part or a value of this statement stands.
  [[nodiscard]] text::Span place(const Part& part) const { return shifted(part.span, shift); }
  [[nodiscard]] text::Span place(const words::Value& value) const {
    return shifted(value.span, shift);
  }
  /// Where the first value in `slot` stands; there must be one.
  [[nodiscard]] text::Span place(std::string_view slot) const { return place(*value(slot)); }
  /// The same statement, said again so much further on in the same text.
  [[nodiscard]] Statement moved(std::uint32_t by) const;
  /// Takes the parts of `other` behind its own.
  void append(const Statement& other);

 private:
  static text::Span shifted(text::Span span, std::uint32_t by) {
    return {span.file, span.begin + by, span.end + by};
  }
};

/// What a node is as a token of a statement; nothing where it is none by itself (a unit goes with
/// its number).
std::optional<words::TokenKind> token_kind(syntax::NodeKind kind);

/// The block of an item, where it has one.
std::optional<syntax::NodeView> block_of(syntax::NodeView item);

/// Reads statements of one file. What it has room for is kept from one to the next.
class StatementReader {
 public:
  /// `source` must outlive what is read: names and texts refer to it.
  StatementReader(const text::Source& source, diag::Findings& findings)
      : source_(source), findings_(findings) {}

  /// Reads one item that stands in `place` (called `place_name` in messages). Nothing where the
  /// word is unknown or misplaced (reported). A statement with values that do not fit is broken
  /// (reported, or reported by the parser).
  std::optional<Statement> read(syntax::NodeView item, unsigned place, std::string_view place_name);

 private:
  struct Found { // of an item
    bool junk = false;
    std::optional<syntax::NodeView> block;
  };
  Found take_tokens(syntax::NodeView item);

  const text::Source& source_;
  diag::Findings& findings_;
  std::vector<words::Token> tokens_;
  words::Reading reading_;
  std::vector<Part> parts_;
};

} // namespace norma::model
