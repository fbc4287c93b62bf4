// The one table of the language's words. A row says where a word may stand, how its values look,
// what becomes of it on the other side and in the other jaw, and what a change of it means for the
// pictures. Parser, model, formatter, editor files and the reference are made from it or held
// against it.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "words/pattern.hpp"

namespace norma::words {

/// Where a word may stand; a set of bits.
enum Place : unsigned {
  in_file = 1,
  in_protocol = 2,
  in_every = 4, // `every mouth view`
  in_view = 8,  // of the mouth
  in_every_face = 16,
  in_face = 32,
};

/// How often a word may stand in one block.
enum class Repeat {
  once,
  keyed, // once for each key: `retractor right`
  list,  // any number; a mention replaces what is inherited as a whole
};

/// What becomes of a word in a derived view.
enum class Crossing {
  keeps, // stays as it is
  maps,  // left and right, quadrants, up and down change over
  stays, // does not cross: the derived view has none unless it says so
};

/// What a change of a word, or of one of its clauses, means for the pictures.
enum class Effect {
  patients,    // whom it is of
  scale,       // how large things are in it
  direction,   // where it looks from
  perspective, // from how far away
  framing,     // what it is of, and where that lies in it
  hold,        // how the camera is held
  orientation, // the wanted picture: which way up, mirrored or not
  promise,     // what it must show, and how well
  room,        // what holds lips, cheeks and tongue out of the way
  sharpness,
  light,
  handling, // the work at the chair
  record,   // what becomes of the pictures, and of the protocol
  text,     // how things are called
};
/// Does it shape the picture?
constexpr bool shapes_the_picture(Effect e) { return e < Effect::handling; }

/// How one part of a statement (between two commas) may look.
struct Clause {
  std::string_view slot;
  std::string_view pattern;
  bool required = false;
  bool repeats = false;
  bool leads = false;             // stands right behind the word, before the first comma
  std::string_view with{};        // slot of another clause that must be there beside it
  std::optional<Effect> effect{}; // where it is not that of its word
};
/// The same clause, with an effect of its own.
constexpr Clause with_effect(Effect effect, Clause clause) {
  clause.effect = effect;
  return clause;
}

struct Word {
  std::string_view name;
  unsigned places = 0;
  Repeat repeat = Repeat::once;
  std::string_view key; // choice that stands right after a keyed word
  std::span<const Clause> clauses;
  Crossing other_side = Crossing::keeps;
  Crossing other_jaw = Crossing::keeps;
  Effect effect = Effect::handling;
  std::optional<Effect> effect_of_face{}; // in a view of the face, where it is another
  /// What it structures: 0 nothing; 1 a file; 2 a protocol; 3 a view. Where it starts a line inside
  /// a part of its own level or a deeper one, that part has lost its closing brace.
  int level = 0;
  bool block = false; // takes a block
  int edition = 1;
  std::string_view absence;  // behind `no`, where that does not read with the name
  std::string_view synonyms; // other words people write for it, parted by commas
  std::string_view help;
  std::string_view example;
};

/// Of the language, as the first line of a file says it.
inline constexpr int language_edition = 1;

std::span<const Word> vocabulary();
/// What a change of the word means, in a view of the face or elsewhere.
constexpr Effect effect_of(const Word& word, bool face) {
  return face ? word.effect_of_face.value_or(word.effect) : word.effect;
}
/// The same of one of its clauses.
constexpr Effect effect_of(const Word& word, const Clause& clause, bool face) {
  return clause.effect.value_or(effect_of(word, face));
}
/// The row of `name` that may stand in `place`; null where there is none.
const Word* find_word(std::string_view name, unsigned place);
/// The row that people also write `name` for, among those that may stand in `place`; null where
/// there is none.
const Word* also_written_as(std::string_view name, unsigned place);
/// Level of a word that structures a file (`view`, `protocol`, ...) by its first word; else 0.
int structure_level(std::string_view first_word);

/// A clause with its compiled pattern; made once.
struct CompiledWord {
  const Word* word;
  std::vector<std::string_view> parts;   // the words of its name
  std::vector<std::string_view> absence; // what stands behind `no`: its own words, or its name
  std::vector<Pattern> patterns;         // in the order of its clauses
  std::vector<std::string_view> keys;
};
std::span<const CompiledWord> compiled_vocabulary();
/// The rows whose names start with this word.
std::span<const CompiledWord* const> starting_with(std::string_view first_word);

/// Every word that can stand anywhere in a statement, sorted, without doubles.
std::vector<std::string> all_words();

/// A pattern with its values in capitals: `aperture F-NUMBER [to F-NUMBER]`.
std::string pattern_text(std::string_view pattern);
/// Where a word may stand, in words: "a protocol, a view".
std::string places_text(unsigned places);

/// The key of a keyed word that reads `text`, as the row has it; "" where it has no such key.
std::string_view key_of(const Word& word, std::string_view text);

/// How a clause of `word` may stand: must be there, may come again, together with which other.
std::vector<std::string> clause_notes(const Word& word, const Clause& clause);

/// May `also` stand before it: is it a list?
bool adds(const Word& word);

/// A symbol or key of the table with left and right changed over, or with upper and lower, up and
/// down, above and below.
std::string_view other_side(std::string_view symbol);
std::string_view other_jaw(std::string_view symbol);

} // namespace norma::words
