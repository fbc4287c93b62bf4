// Protocols drawn at random from the word table: the patterns of each word are walked, and each
// slot is filled by its type. A new word of the language is drawn without a change here; only a new
// kind of value, or a new word that structures a file, has to be taught (the suite says so).
#pragma once

#include <cstdint>
#include <map>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "words/vocabulary.hpp"

namespace norma::test::meta {

/// The same throws for the same seed, on every machine.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  /// 0 up to `n` - 1.
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(engine_() % n); }
  bool chance(double share) { return unit() < share; }
  double between(double low, double high) { return low + (high - low) * unit(); }
  template <class List> const auto& one_of(const List& list) {
    return *(std::begin(list) + static_cast<std::ptrdiff_t>(below(std::size(list))));
  }
  template <class List> void shuffle(List& list) {
    for (std::size_t i = list.size(); i > 1; --i)
      std::swap(list[i - 1], list[below(i)]);
  }
  std::uint64_t seed() { return engine_(); }

 private:
  double unit() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
  std::mt19937_64 engine_;
};

/// One thing that stands in a part of a statement, as it is written.
struct Piece {
  enum class Kind { plain, symbol, teeth, view, code, text, other };
  Kind kind = Kind::plain;
  std::string text;
};
/// What stands between two commas.
struct Part {
  std::size_t clause = 0; // of its word
  std::vector<Piece> pieces;
};
struct Statement {
  const words::Word* row = nullptr;
  std::string mention; // "", "also", "no"
  std::string key;
  std::vector<Part> parts;
  bool block = false;
  std::vector<Statement> body;

  [[nodiscard]] bool is(std::string_view name) const { return row->name == name; }
  /// The first piece, as written: the name of a view, a series, the protocol.
  [[nodiscard]] const std::string& name() const { return parts.front().pieces.front().text; }
  std::string& name() { return parts.front().pieces.front().text; }
  [[nodiscard]] bool is_view() const { return is("view") || is("face view"); }
};

/// Statements as a file of one protocol. `lines`, where given, gets the statement that stands on
/// each line, by the way to it (indices from the protocol's body down).
using Way = std::vector<std::size_t>;
std::string file_text(const Statement& protocol, std::vector<Way>* lines = nullptr);
/// One statement without its block.
std::string line_text(const Statement& s);

/// A statement of `row` with these parts, each the texts of its pieces with their kinds.
Statement made(std::string_view row, unsigned place, std::vector<Part> parts);
const words::Word& row_of(std::string_view name, unsigned place);

/// A protocol; nothing is said of whether the program likes all of it.
Statement draw_protocol(Dice& dice);
/// One of the shipped protocols, with some of its statements drawn anew: what is drawn freely
/// seldom gets as far as a whole mouth before a camera.
Statement draw_near_shipped(Dice& dice);
/// Another statement of the same word, key and mention.
Statement draw_like(const Statement& s, Dice& dice);
/// A name that nothing else has.
std::string draw_name(Dice& dice);

/// Calls `visit` with every statement below `s`, and with `s` itself.
template <class S, class Visit> void each(S& s, Visit visit) {
  visit(s);
  for (auto& inner : s.body)
    each(inner, visit);
}

/// What was drawn: "word", "word [key]", "word: clause".
void note_drawn(const Statement& s, std::set<std::string>& drawn);
/// All there is to draw.
std::set<std::string> all_to_draw();

} // namespace norma::test::meta
