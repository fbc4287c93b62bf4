// Words of a protocol that are one of a few: what the word table reads against the enums that hold
// it.
#include <doctest/doctest.h>

#include <set>
#include <string>

#include "model/choices.hpp"
#include "words/vocabulary.hpp"

namespace norma::test {
namespace {

/// Everything that the choices of the word table may read.
std::set<std::string> symbols_of_words() {
  std::set<std::string> out;
  for (const words::CompiledWord& word : words::compiled_vocabulary()) {
    for (const words::Pattern& pattern : word.patterns) {
      for (const std::string_view symbol : pattern.symbols())
        out.emplace(symbol);
    }
  }
  return out;
}

std::set<std::string> symbols_of_enums() {
  std::set<std::string> out;
#define NORMA_CHOICES(type)
#define NORMA_CHOICE(type, list, value, symbol) out.emplace(symbol);
#define NORMA_CHOICES_END(type)
#include "model/choices.def"
  return out;
}

/// Read into other types: sides, people, surfaces, kinds of lamp and of mirror, flags.
const std::set<std::string> elsewhere{"above",
                                      "adults",
                                      "assistant",
                                      "at the left",
                                      "at the right",
                                      "behind the head",
                                      "below",
                                      "bottom",
                                      "buccal",
                                      "buccal left",
                                      "buccal right",
                                      "cervical third",
                                      "cheek",
                                      "children",
                                      "clip on",
                                      "built into the lens",
                                      "dry",
                                      "even light",
                                      "whichever teeth are there",
                                      "facial",
                                      "named at the chair",
                                      "set by the camera",
                                      "fixed to the lens",
                                      "high",
                                      "in a mirror",
                                      "in front",
                                      "incisal",
                                      "incisal third",
                                      "needs no hand",
                                      "labial",
                                      "left",
                                      "less",
                                      "lingual",
                                      "lingual left",
                                      "lingual right",
                                      "lower front teeth",
                                      "upper front teeth",
                                      "lower jaw",
                                      "middle third",
                                      "modelling light",
                                      "more",
                                      "occlusal",
                                      "operator",
                                      "optional",
                                      "other jaw",
                                      "other side",
                                      "palatal",
                                      "patient",
                                      "patient rests",
                                      "point",
                                      "right",
                                      "ring",
                                      "same one turned over",
                                      "series",
                                      "top",
                                      "twin",
                                      "upper jaw",
                                      "warmed",
                                      "wetted",
                                      "wide",
                                      "with"};

} // namespace

TEST_CASE("what the word table reads has a value, and each value is read") {
  const auto read = symbols_of_words();
  const auto held = symbols_of_enums();
  for (const std::string& symbol : read) {
    CAPTURE(symbol);
    CHECK((held.count(symbol) == 1 || elsewhere.count(symbol) == 1));
  }
  for (const std::string& symbol : held) {
    CAPTURE(symbol);
    // Where a paddle is held is read with its `behind the`.
    const std::string bare = symbol.starts_with("behind the ") ? symbol.substr(11) : symbol;
    CHECK((read.count(symbol) == 1 || read.count(bare) == 1));
  }
}

TEST_CASE("each list reads its own symbols, in its order") {
#define NORMA_CHOICES(type)
#define NORMA_CHOICE(type, list, name, symbol)                                                     \
  CHECK(model::choice_of<model::type>(symbol) == model::type::name);                               \
  CHECK(model::row_of(model::type::name).value == model::type::name);
#define NORMA_CHOICES_END(type) CHECK(!model::choice_of<model::type>("no such symbol"));
#include "model/choices.def"
}

} // namespace norma::test
