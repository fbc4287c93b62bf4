// A second language is a file: what is printed in one that has no English holds none.
#include <doctest/doctest.h>

#include <algorithm>
#include <cctype>
#include <memory>
#include <set>
#include <string>

#include "emit/card.hpp"
#include "emit/chairs.hpp"
#include "emit/checklist.hpp"
#include "emit/document_pages.hpp"
#include "emit/explain_view.hpp"
#include "emit/findings_text.hpp"
#include "emit/laid_out.hpp"
#include "emit/marks.hpp"
#include "emit/not_checked.hpp"
#include "emit/view_picture.hpp"
#include "facts/facts.hpp"
#include "report/unread.hpp"
#include "session/session.hpp"
#include "support/shipped.hpp"
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
/// and `title`. Each on a line.
std::string own_texts(const session::Session& session) {
  std::string out;
  const auto add = [&](std::string_view text) {
    out += text;
    out += '\n';
  };
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
    for (const model::View& view : held.protocol->views)
      add(view.name);
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

/// Letters moved by 13 places: words of no language, each unlike another.
std::string strange(std::string text) {
  for (char& c : text) {
    const auto moved = [c](char first) { return static_cast<char>(first + (c - first + 13) % 26); };
    if (c >= 'a' && c <= 'z') c = moved('a');
    if (c >= 'A' && c <= 'Z') c = moved('A');
  }
  return text;
}
/// A protocol's texts between quotes made strange; names of files stay.
std::string with_strange_texts(const std::string& protocol) {
  std::string out;
  std::size_t at = 0;
  while (at < protocol.size()) {
    const std::size_t open = std::min(protocol.find('"', at), protocol.size() - 1) + 1;
    const std::size_t close = std::min(protocol.find('"', open), protocol.size());
    const std::string text = protocol.substr(open, close - open);
    out += protocol.substr(at, open - at);
    out += text.ends_with(".norma") || close == protocol.size() ? text : strange(text);
    if (close < protocol.size()) out += '"';
    at = close + 1;
  }
  return out;
}
/// The same of a kit's names and its title.
std::string with_strange_names(const std::string& kit) {
  std::string out;
  std::size_t at = 0;
  while (at < kit.size()) {
    const std::size_t stop = std::min(kit.find('\n', at), kit.size() - 1);
    const std::string line = kit.substr(at, stop + 1 - at);
    at = stop + 1;
    std::size_t value = std::string::npos;
    for (const std::string_view key : {"name: ", "title: "}) {
      const std::size_t found = line.find(key);
      if (found != std::string::npos && line.find_first_not_of(" -") == found)
        value = found + key.size();
    }
    out += line.substr(0, value);
    if (value != std::string::npos) out += strange(line.substr(value));
  }
  return out;
}

/// Words of four letters and more, small, of what stands outside of `...`: there stand words of the
/// language of protocols, names and numbers. Letters are those of English and German.
std::set<std::string> spoken_words(std::string_view text) {
  std::set<std::string> out;
  std::string word;
  bool quoted = false;
  std::size_t letters = 0;
  const auto end = [&] {
    if (letters >= 4) out.insert(word);
    word.clear();
    letters = 0;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte == '`') quoted = !quoted;
    constexpr unsigned char latin = 0xc3; // the first byte of its letters with marks in UTF-8
    if (byte == latin && i + 1 < text.size()) {
      word += {text[i], text[i + 1]};
      ++letters;
      ++i;
    } else if (byte < 0x80 && std::isalpha(byte) != 0) {
      word += static_cast<char>(std::tolower(byte));
      ++letters;
    } else {
      end();
    }
    if (quoted) {
      word.clear();
      letters = 0;
    }
  }
  end();
  CHECK(!quoted);
  return out;
}
std::set<std::string> spoken_words(const wording::Language& in) {
  std::set<std::string> out;
  for (const std::string_view key : in.keys())
    out.merge(spoken_words(in.pattern(key)));
  return out;
}

/// What is read on a page of HTML, seen or heard: its text, labels and what its script shows.
std::string read_of(const std::string& html) {
  std::string out;
  std::size_t at = 0;
  while (at < html.size()) {
    const std::size_t open = std::min(html.find('<', at), html.size());
    out += html.substr(at, open - at) + '\n';
    if (open == html.size()) break;
    at = std::min(html.find('>', open), html.size() - 1) + 1;
    const std::string tag = html.substr(open, at - open);
    for (const std::string_view skipped : {"<style", "<script"}) {
      if (!tag.starts_with(skipped)) continue;
      at = html.find("</" + std::string(skipped.substr(1)), at);
      REQUIRE(at != std::string::npos);
    }
    for (const std::string_view name : {"aria-label=\"", "data-label=\"", "data-place=\"",
                                        "data-other=\"", "title=\"", "alt=\""}) {
      const std::size_t found = tag.find(name);
      if (found == std::string::npos) continue;
      const std::size_t begin = found + name.size();
      out += tag.substr(begin, tag.find('"', begin) - begin) + '\n';
    }
  }
  return out;
}

std::string read_of(const drawing::Paper& paper) {
  std::string out = paper.title + '\n';
  const auto add = [&](const std::string& text) { out += text + '\n'; };
  for (const drawing::PaperPage& page : paper.pages) {
    for (const drawing::TextBox& box : page.boxes) {
      for (const drawing::Paragraph& p : box.paragraphs) {
        for (const drawing::Run& run : p.runs)
          add(run.text);
      }
    }
    for (const drawing::Figure& f : page.figures)
      add(f.alt);
  }
  for (const drawing::Flow& flow : paper.flows) {
    for (const drawing::FlowEntry& entry : flow.entries) {
      add(entry.text);
      for (const auto& field : entry.fields)
        add(field.text);
    }
  }
  return out;
}

struct PageRead {
  std::string name;
  std::string text;
};
/// All pages that people read of one protocol and one kit.
std::vector<PageRead> pages_of(const report::Report& report, const report::Held& held,
                               const wording::Language& in) {
  std::vector<PageRead> out;
  const auto add = [&](std::string name, std::string text) {
    out.push_back({std::move(name), std::move(text)});
  };
  const std::pair<const char*, emit::Document> documents[] = {
      {"list", emit::checklist(report, held, "", in)},
      {"tray", emit::laid_out(report, held, "", 6, in)},
      {"marks", emit::marks(report, held, "", in)}};
  for (const auto& [name, document] : documents) {
    add(name, emit::as_text(document));
    add(std::string(name) + ", HTML", read_of(emit::as_html({document}, in)));
    add(std::string(name) + ", paper", read_of(emit::as_paper({document}, emit::a4, in)));
  }
  add("tray, CSV", emit::laid_out_csv(report, held, "", 6, in));
  add("marks, CSV", emit::marks_csv(report, held, "", in));
  const emit::Cards cards = emit::cards_of(report, held, "", in);
  add("card, HTML", read_of(emit::cards_html({cards}, in)));
  add("card, paper", read_of(emit::cards_on_paper({cards}, emit::a4, in)));
  add("card, rows", read_of(emit::cards_in_rows({cards}, emit::a4, in)));
  add("chairs", emit::chairs(report, {&held}, in));
  for (const plan::ViewPlan& view : held.plan.views)
    add("picture", read_of(emit::view_picture(view, in)));
  std::string found;
  for (const diag::Diagnostic* d : report.findings_for(held)) {
    found += in.text(d->message) + '\n';
    for (const diag::Said& note : d->notes)
      found += in.text(note) + '\n';
    for (const diag::Said& help : d->help)
      found += in.text(help) + '\n';
    for (const auto& label : d->labels)
      found += in.text(label.text) + '\n';
  }
  add("findings", std::move(found));
  return out;
}

} // namespace

/// A shipped protocol with a shipped kit, all that they say in their own words made strange.
std::unique_ptr<session::Session> run_strange(const std::filesystem::path& protocol,
                                              const std::filesystem::path& kit) {
  text::MemoryFiles files;
  for (const auto& one : shipped_protocols())
    files.put(one.filename().string(), with_strange_texts(read_file(one)));
  files.put("k.yaml", with_strange_names(read_file(kit)));
  auto out = std::make_unique<session::Session>();
  out->run(files, {{protocol.filename().string()}, {"k.yaml"}, {2026, 11, 25}});
  for (const report::Held& held : out->report().held)
    CHECK(report::unread_of(out->report(), held).whole());
  return out;
}

TEST_CASE("German texts hold no English but words that both languages have") {
  // Words alike in both; `mouths`, `norma` and `scene` are names of the program's own.
  const std::set<std::string> both{
      "block",    "code",    "codes",    "falls",    "filter",   "hand",    "jpeg",
      "json",     "kind",    "lingual",  "material", "mired",    "molar",   "mouths",
      "name",     "norma",   "overbite", "overjet",  "optional", "patient", "radius",
      "relation", "reserve", "revision", "ring",     "scene",    "sensor",  "tags",
      "text",     "tray",    "warm",     "yaml",     "zoom"};
  const std::set<std::string> english = spoken_words(wording::english());
  CHECK(english.size() > 700);
  std::set<std::string> found;
  for (const std::string& word : spoken_words(wording::german())) {
    if (english.count(word) == 1) found.insert(word);
  }
  for (const std::string& word : found)
    CHECK_MESSAGE(both.count(word) == 1, word);
  CHECK(found == both);
}

TEST_CASE("each word of a German page is German, or a name's") {
  const std::set<std::string> german = spoken_words(wording::german());
  CHECK(german.size() > 900);
  std::size_t pages = 0;
  std::set<std::string> told;
  for (const auto& protocol : shipped_protocols()) {
    CAPTURE(protocol.filename().string());
    for (const auto& kit : shipped_kits()) {
      CAPTURE(kit.filename().string());
      const auto session = run_strange(protocol, kit);
      const std::set<std::string> own = spoken_words(own_texts(*session));
      const report::Report& report = session->report();
      REQUIRE(!report.held.empty());
      for (const report::Held& held : report.held) {
        for (const PageRead& page : pages_of(report, held, wording::german())) {
          CAPTURE(page.name);
          ++pages;
          for (const std::string& word : spoken_words(page.text)) {
            const bool leaks = german.count(word) == 0 && own.count(word) == 0;
            CHECK_MESSAGE(!(leaks && told.insert(word).second), word);
          }
        }
      }
    }
  }
  CHECK(pages > 1000);
}

TEST_CASE("English pages are full of words that are not German, by the same measure") {
  const std::set<std::string> german = spoken_words(wording::german());
  const auto session =
      run_strange(root() / "protocols/five.norma", root() / "protocols/kits/chair_3.yaml");
  const std::set<std::string> own = spoken_words(own_texts(*session));
  const report::Report& report = session->report();
  for (const PageRead& page : pages_of(report, report.held.front(), wording::english())) {
    CAPTURE(page.name);
    const std::set<std::string> words = spoken_words(page.text);
    const auto found = std::count_if(words.begin(), words.end(), [&](const std::string& word) {
      return german.count(word) == 0 && own.count(word) == 0;
    });
    CHECK(found > 1);
  }
}

TEST_CASE("nothing English stands on a page in another language") {
  const std::string texts = masked_texts();
  const std::string_view piece = texts;
  const wording::Language masked("x-masked", {&piece, 1});
  for (const auto& pair :
       {std::pair("five.norma", "chair_3.yaml"), std::pair("five.norma", "chair_7.yaml"),
        std::pair("children.norma", "child.yaml")}) {
    const std::string file = pair.first;
    const std::string kit = pair.second;
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
    std::set<std::string> allowed = words_in(own_texts(session));
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

TEST_CASE("each language writes its days and its signs") {
  const wording::Language& en = wording::english();
  const wording::Language& de = wording::german();
  CHECK(en.tag() == "en");
  CHECK(de.tag() == "de");
  const words::Date day{2026, 3, 5};
  CHECK(en.text(wording::day_said(day)) == "2026-03-05");
  CHECK(de.text(wording::day_said(day)) == "05.03.2026"); // DIN 5008
  CHECK(de.text(diag::Measure{physics::Kind::length, 35.25, false}) == "35,3 mm");
  CHECK(de.text(diag::Measure{physics::Kind::angle, (45.5 * degree).base(), false}) == "45,5°");
  CHECK(de.text(diag::Measure{physics::Kind::f_number, 5.657, false}) == "f/5,6");
  CHECK(en.text(diag::Measure{physics::Kind::tenths, 2.0, false}) == "2");
  CHECK(de.text(diag::Measure{physics::Kind::tenths, 2.46, false}) == "2,5");
}

TEST_CASE("English writes numbers as protocols and kits do") {
  using physics::Kind;
  for (const Kind kind :
       {Kind::length, Kind::fine_length, Kind::angle, Kind::stops, Kind::time, Kind::f_number,
        Kind::ratio, Kind::power, Kind::iso, Kind::illuminance, Kind::temperature, Kind::mired,
        Kind::count, Kind::share, Kind::decimal, Kind::tenths}) {
    CAPTURE(static_cast<int>(kind));
    for (const double number :
         {0.0, 0.001, 0.125, 0.3968502629920499, 0.5, 1.0, 1.2, 2.0, 22.6274, 120.0})
      CHECK(wording::english().text(diag::Measure{kind, number, false}) ==
            physics::to_text(kind, number, true));
  }
}

} // namespace norma::test
