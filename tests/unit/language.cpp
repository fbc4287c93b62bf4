// A second language is a file: what is printed in one that has no English holds none.
#include <doctest/doctest.h>

#include <cctype>
#include <set>
#include <string>

#include "emit/chairs.hpp"
#include "emit/checklist.hpp"
#include "emit/explain_view.hpp"
#include "emit/findings_text.hpp"
#include "emit/not_checked.hpp"
#include "emit/view_picture.hpp"
#include "facts/facts.hpp"
#include "session/session.hpp"
#include "support/support.hpp"
#include "wording/wording.hpp"

namespace norma::test {
namespace {

/// All texts of English, each letter outside of the braces made one of another alphabet.
std::string masked_texts() {
  std::string out;
  for (const std::string_view key : wording::english().keys()) {
    out += std::string(key) + " = ";
    if (key == wording::form::decimal_sign.id) {
      out += ",\n";
      continue;
    }
    for (const char c : wording::english().pattern(key))
      out += std::isalpha(static_cast<unsigned char>(c)) != 0 ? "\u0436" : std::string(1, c);
    out += '\n';
  }
  return out;
}

/// Words of two letters and more; what holds a digit is a code, a digest or a name of one.
std::set<std::string> words_in(std::string_view text) {
  std::set<std::string> out;
  std::string word;
  bool digits = false;
  const auto end = [&] {
    if (word.size() > 1 && !digits) out.insert(word);
    word.clear();
    digits = false;
  };
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) == 0) {
      end();
      continue;
    }
    digits = digits || std::isdigit(byte) != 0;
    word += c;
  }
  end();
  return out;
}

/// What a protocol and a kit say in their own words: texts between quotes, names, values of `name`
/// and `title`.
std::set<std::string> own_words(const session::Session& session) {
  std::set<std::string> out;
  const auto add = [&](std::string_view text) { out.merge(words_in(text)); };
  const report::Report& report = session.report();
  for (std::size_t i = 0; i < report.sources.size(); ++i) {
    const text::Source& source = report.sources[static_cast<text::FileId>(i)];
    add(source.name());
    bool inside = false;
    std::string quoted;
    for (const char c : source.bytes()) {
      if (c == '"') inside = !inside;
      quoted += inside ? c : ' ';
    }
    add(quoted);
  }
  for (const report::Held& held : report.held) {
    add(held.protocol->name);
    for (const model::View& view : held.protocol->views) {
      add(view.name);
      // Surfaces are quoted in the words of the language.
      if (view.must_be_sharp.known()) add(model::to_text(view.must_be_sharp.get()));
    }
    for (const model::Series& series : held.protocol->series)
      add(series.name);
    const kit::Kit& kit = *held.kit;
    const auto name_of = [&](const auto& piece) {
      if (piece.name.known()) add(piece.name.get());
    };
    name_of(kit);
    if (kit.title.known()) add(kit.title.get());
    if (kit.lens) name_of(*kit.lens);
    for (const auto& one : kit.lamps)
      name_of(one);
    for (const auto& one : kit.retractors)
      name_of(one);
    for (const auto& one : kit.mirrors)
      name_of(one);
  }
  return out;
}

} // namespace

TEST_CASE("nothing English stands on a page in another language") {
  const std::string texts = masked_texts();
  const std::string_view piece = texts;
  const wording::Language masked("x-masked", {&piece, 1});
  for (const auto& [file, kit] :
       {std::pair("five.norma", "chair_3.yaml"), std::pair("five.norma", "chair_7.yaml"),
        std::pair("children.norma", "child.yaml")}) {
    CAPTURE(file);
    CAPTURE(kit);
    const text::DiskFiles files;
    session::Request request;
    request.protocols = {(root() / "protocols" / file).string()};
    request.kits = {(root() / "protocols/kits" / kit).string()};
    request.on = words::Date{2026, 11, 25};
    session::Session session;
    REQUIRE(!session.run(files, request));
    const report::Report& report = session.report();
    std::set<std::string> allowed = own_words(session);
    // Formulas and sources are of the facts' table.
#define NORMA_FACT(type, name, kind, formula, source, question)                                    \
  allowed.merge(words_in(formula));                                                                \
  allowed.merge(words_in(source));
#include "facts/facts.def"
#undef NORMA_FACT
    const auto check = [&](const char* page, const std::string& text) {
      CAPTURE(page);
      CHECK(!text.empty());
      for (const std::string& word : words_in(text))
        CHECK_MESSAGE(allowed.count(word) == 1, word);
    };
    REQUIRE(!report.held.empty());
    std::vector<const report::Held*> held;
    for (const report::Held& one : report.held) {
      held.push_back(&one);
      check("checklist", emit::as_text(emit::checklist(report, one, "", masked)));
      for (const plan::ViewPlan& view : one.plan.views)
        check("explain", emit::explain_view(view, masked));
    }
    check("chairs", emit::chairs(report, held, masked));
    std::string lines;
    std::vector<const report::NotChecked*> open;
    for (const report::NotChecked& one : report.not_checked)
      open.push_back(&one);
    for (const std::string& line : emit::not_checked_lines(report, open, emit::Naming::all, masked))
      lines += line + "\n";
    check("not checked", lines);
  }
}

TEST_CASE("each language writes its numbers with its own sign") {
  const std::string texts = masked_texts();
  const std::string_view piece = texts;
  const wording::Language masked("x-masked", {&piece, 1});
  const diag::Measure distance{physics::Kind::length, 35.25, false};
  CHECK(wording::english().text(distance) == "35.3 mm");
  CHECK(masked.text(distance) == "35,3 \u0436\u0436");
  CHECK(masked.text(diag::Measure{physics::Kind::f_number, 5.657, false}) == "f/5,6");
  CHECK(masked.text(Size{Length::from_base(36), Length::from_base(24.5)}) ==
        "36 x 24,5 \u0436\u0436");
}

TEST_CASE("English writes numbers as protocols and kits do") {
  using physics::Kind;
  for (const Kind kind :
       {Kind::length, Kind::fine_length, Kind::angle, Kind::stops, Kind::time, Kind::f_number,
        Kind::ratio, Kind::power, Kind::iso, Kind::illuminance, Kind::temperature, Kind::mired,
        Kind::count, Kind::share, Kind::decimal}) {
    CAPTURE(static_cast<int>(kind));
    for (const double number :
         {0.0, 0.001, 0.125, 0.3968502629920499, 0.5, 1.0, 1.2, 2.0, 22.6274, 120.0})
      CHECK(wording::english().text(diag::Measure{kind, number, false}) ==
            physics::to_text(kind, number, true));
  }
}

} // namespace norma::test
