// Texts and rows: each row of what norma says has a text in each language, with its arguments, and
// no text is left over.
#include <doctest/doctest.h>

#include <filesystem>
#include <map>
#include <set>
#include <vector>

#include "diag/catalogue.hpp"
#include "diag/missing.hpp"
#include "diag/questions.hpp"
#include "diag/terms.hpp"
#include "emit/card_words.hpp"
#include "emit/compared_words.hpp"
#include "emit/frame_words.hpp"
#include "emit/list_words.hpp"
#include "facts/facts.hpp"
#include "facts/phrases.hpp"
#include "live/live_words.hpp"
#include "model/choices.hpp"
#include "plan/by_hand/by_hand.hpp"
#include "plan/acts/act.hpp"
#include "review/compare.hpp"
#include "rules/notes.hpp"
#include "server/server_words.hpp"
#include "support/support.hpp"
#include "wording/wording.hpp"

namespace norma::test {
namespace {

/// All rows, by their keys.
std::map<std::string_view, int> rows() {
  std::map<std::string_view, int> out;
  const auto add = [&](const diag::Row& row) {
    CAPTURE(row.id);
    CHECK(out.emplace(row.id, row.arguments).second);
  };
  for (const diag::Definition* d : diag::catalogue::all())
    add(*d);
#define NORMA_ADD(name, count) add(diag::question::name);
  NORMA_QUESTIONS(NORMA_ADD)
#undef NORMA_ADD
#define NORMA_ADD(name, count) add(diag::missing::name);
  NORMA_ALL_MISSING(NORMA_ADD)
#undef NORMA_ADD
#define NORMA_ADD(name, count) add(diag::term::name);
  NORMA_TERMS(NORMA_ADD)
#undef NORMA_ADD
#define NORMA_FACT(type, name, kind, formula, source, question) add(plan::fact::name);
#include "facts/facts.def"
#undef NORMA_FACT
#define NORMA_PHRASE(name, count) add(plan::phrase::name);
#include "facts/phrases.def"
#undef NORMA_PHRASE
#define NORMA_WHO(name, key) add(plan::row_of(plan::Who::name));
#define NORMA_ACT(verb, objects) add(plan::row_of(plan::Verb::verb));
#define NORMA_HOW(name, arguments) add(plan::how::name);
#define NORMA_OBJECT(name, arguments) add(plan::object::name);
#include "plan/acts/acts.def"
#define NORMA_BY_HAND(name, count) add(plan::by_hand::name);
#include "plan/by_hand/by_hand.def"
#undef NORMA_BY_HAND
#define NORMA_CHOICES(type)
#define NORMA_CHOICE(type, list, value, symbol) add(model::row_of(model::type::value).term);
#define NORMA_CHOICES_END(type)
#include "model/choices.def"
#define NORMA_NOTE(name, count) add(rules::note::name);
#include "rules/notes.def"
#undef NORMA_NOTE
#define NORMA_LIST(name, count) add(emit::list::name);
#include "emit/list.def"
#undef NORMA_LIST
#define NORMA_CARD(name, count) add(emit::card::name);
#include "emit/cards.def"
#undef NORMA_CARD
#define NORMA_FRAME(name, count) add(emit::frame::name);
#include "emit/frames.def"
#undef NORMA_FRAME
#define NORMA_COMPARED(name, count) add(emit::compared::name);
#include "emit/compared.def"
#undef NORMA_COMPARED
#define NORMA_SERVER(name, count) add(server::said::name);
#include "server/server.def"
#undef NORMA_SERVER
#define NORMA_LIVE(name, count) add(live::said::name);
#include "live/live.def"
#undef NORMA_LIVE
#define NORMA_KIND(name, effect) add(review::row_of(review::Kind::name));
#include "review/kinds.def"
#define NORMA_FORM(name, count) add(wording::form::name);
#include "wording/forms.def"
#undef NORMA_FORM
  return out;
}

/// The arguments that a text puts in: by their numbers, or as many as it has `{}`.
std::set<int> arguments_in(std::string_view text) {
  std::set<int> out;
  int next = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '{' && text[i] != '}') continue;
    if (i + 1 < text.size() && text[i + 1] == text[i]) {
      ++i; // a brace that is meant
      continue;
    }
    REQUIRE(text[i] == '{');
    const std::size_t close = text.find('}', i);
    REQUIRE(close != std::string_view::npos);
    const std::string digits(text.substr(i + 1, close - i - 1));
    out.insert(digits.empty() ? next++ : std::stoi(digits));
    i = close;
  }
  return out;
}

/// What stands between `...`: words of the language of protocols and kits.
std::vector<std::string> quoted_in(std::string_view text) {
  std::vector<std::string> out;
  for (std::size_t open = text.find('`'); open != std::string_view::npos;) {
    const std::size_t close = text.find('`', open + 1);
    REQUIRE(close != std::string_view::npos);
    out.emplace_back(text.substr(open + 1, close - open - 1));
    open = text.find('`', close + 1);
  }
  return out;
}

} // namespace

TEST_CASE("each row has a text in each language, each text a row, and they agree on arguments") {
  const auto all = rows();
  REQUIRE(all.size() > 150);
  for (const wording::Language* language : wording::languages()) {
    CAPTURE(language->tag());
    std::set<std::string_view> told;
    for (const std::string_view key : language->keys()) {
      CAPTURE(key);
      CHECK(told.insert(key).second); // no key twice
      const auto row = all.find(key);
      REQUIRE(row != all.end());
      const std::set<int> used = arguments_in(language->pattern(key));
      CHECK(static_cast<int>(used.size()) == row->second);
      if (!used.empty()) CHECK(*used.rbegin() == row->second - 1);
    }
    for (const auto& row : all) {
      CAPTURE(row.first);
      CHECK(told.count(row.first) == 1);
    }
  }
}

TEST_CASE("each language has its file, and each file is a language's") {
  std::set<std::string> names;
#define NORMA_LANGUAGE(name, tag) names.insert(#name ".txt");
#include "wording/languages.def"
#undef NORMA_LANGUAGE
  std::set<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(root() / "src/wording")) {
    const std::string file = entry.path().filename().string();
    if (entry.path().extension() == ".txt" && file != "CMakeLists.txt") files.insert(file);
  }
  CHECK(names == files);
  std::set<std::string_view> tags;
  for (const wording::Language* language : wording::languages())
    CHECK(tags.insert(language->tag()).second);
}

TEST_CASE("words of the language of protocols stay as they are in each language") {
  const wording::Language& english = wording::english();
  for (const wording::Language* language : wording::languages()) {
    CAPTURE(language->tag());
    for (const std::string_view key : english.keys()) {
      CAPTURE(key);
      for (const std::string& word : quoted_in(language->pattern(key)))
        CHECK_MESSAGE(english.pattern(key).find(word) != std::string_view::npos, word);
      CHECK(quoted_in(language->pattern(key)).empty() == quoted_in(english.pattern(key)).empty());
    }
  }
}

} // namespace norma::test
