// Patterns of the word table: what fits, and which of several reasons is told.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "words/pattern.hpp"
#include "words/vocabulary.hpp"

namespace norma::words {
namespace {

/// Tokens of a short text, for tests: words, numbers with a unit, commas.
struct Tokens {
  std::vector<Token> list;
  Tokens(std::initializer_list<std::pair<TokenKind, std::string_view>> tokens) {
    std::uint32_t at = 0;
    for (const auto& [kind, text] : tokens) {
      const auto size = static_cast<std::uint32_t>(text.size());
      list.push_back({kind, text, {text::FileId{0}, at, at + size}});
      at += size + 1;
    }
  }
};
constexpr TokenKind W = TokenKind::word;
constexpr TokenKind N = TokenKind::number;
const text::Span end{text::FileId{0}, 99, 99};

} // namespace

TEST_CASE("a choice takes its longest form, and keeps it as one symbol") {
  const Pattern p("(teeth apart|teeth apart a little)");
  const Match m = p.match(Tokens{{W, "teeth"}, {W, "apart"}, {W, "a"}, {W, "little"}}.list, end);
  REQUIRE(m.ok);
  CHECK(m.values.front().symbol() == "teeth apart a little");
}

TEST_CASE("what may be left out may be there") {
  const Pattern p("@f_number [to @f_number]");
  CHECK(p.match(Tokens{{TokenKind::f_number, "f/22"}}.list, end).ok);
  const Match both = p.match(
      Tokens{{TokenKind::f_number, "f/22"}, {W, "to"}, {TokenKind::f_number, "f/32"}}.list, end);
  REQUIRE(both.ok);
  CHECK(both.values.size() == 2);
  CHECK(p.match(Tokens{{TokenKind::f_number, "f/22"}, {W, "to"}}.list, end).problem.kind ==
        Problem::Kind::ended);
}

TEST_CASE("the reason that lies furthest is told, with all that was wanted there") {
  const Match m = Pattern("held by (patient|assistant)")
                      .match(Tokens{{W, "held"}, {W, "by"}, {W, "nurse"}}.list, end);
  CHECK(!m.ok);
  CHECK(m.problem.token == 2);
  CHECK(m.problem.wanted == std::vector<std::string>{"patient", "assistant"});
}

TEST_CASE("numbers: unit missing, unknown, of another dimension, out of range") {
  const auto problem = [](std::string_view pattern, std::string_view number) {
    return Pattern(pattern).match(Tokens{{N, number}}.list, end).problem.kind;
  };
  CHECK(problem("@length", "22") == Problem::Kind::missing_unit);
  CHECK(problem("@length", "22 deg") == Problem::Kind::wrong_unit);
  CHECK(problem("@length", "-3 mm") == Problem::Kind::out_of_range);
  CHECK(problem("@angle", "400 deg") == Problem::Kind::out_of_range);
}

TEST_CASE("teeth are ISO 3950 numbers, a row stays in one jaw") {
  const Pattern p("@teeth");
  CHECK(p.match(Tokens{{N, "15"}, {W, "to"}, {N, "25"}}.list, end).ok);
  CHECK(p.match(Tokens{{N, "19"}}.list, end).problem.kind == Problem::Kind::not_a_tooth);
  CHECK(p.match(Tokens{{N, "15"}, {W, "to"}, {N, "45"}}.list, end).problem.kind ==
        Problem::Kind::across_jaws);
}

TEST_CASE("the table: each row fits together") {
  for (const Word& w : vocabulary()) {
    CAPTURE(std::string(w.name));
    CHECK(w.places != 0);
    CHECK(!w.help.empty());
    CHECK(!w.example.empty());
    CHECK(w.example.starts_with(w.name));
    CHECK((w.repeat == Repeat::keyed) == !w.key.empty());
    for (unsigned place = 1; place <= in_view; place *= 2) {
      if ((w.places & place) == 0) continue;
      CHECK(find_word(w.name, place) == &w);
    }
  }
}

TEST_CASE("changing sides or jaws twice changes nothing") {
  for (const CompiledWord& word : compiled_vocabulary()) {
    for (const Pattern& pattern : word.patterns) {
      for (const std::string_view symbol : pattern.symbols()) {
        CHECK(other_side(other_side(symbol)) == symbol);
        CHECK(other_jaw(other_jaw(symbol)) == symbol);
      }
    }
  }
  CHECK(other_side("buccal right") == "buccal left");
  CHECK(other_side("front teeth") == "front teeth");
  CHECK(other_jaw("above") == "below");
}

} // namespace norma::words
