// Lists that stand in two places are held against each other.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "cli/run.hpp"
#include "diag/catalogue.hpp"
#include "facts/facts.hpp"
#include "generated.hpp"
#include "mouths/draw.hpp"
#include "rules/unsettled.hpp"
#include "support/support.hpp"
#include "words/literal.hpp"
#include "words/vocabulary.hpp"

namespace norma::test {
namespace {

std::set<std::string> matches(const std::string& text, const std::string& pattern) {
  std::set<std::string> out;
  const std::regex regex(pattern);
  for (std::sregex_iterator it(text.begin(), text.end(), regex), end; it != end; ++it)
    out.insert((*it)[1]);
  return out;
}

std::string words_in(std::string_view places) { return std::string(places); }

} // namespace

TEST_CASE("codes and names of findings: each once, in order, and all of them in the list") {
  const auto all = diag::catalogue::all();
  std::set<std::string_view> codes;
  std::set<std::string_view> names;
  for (const diag::Definition* d : all) {
    CHECK(codes.insert(d->code).second);
    CHECK(names.insert(d->name).second);
    CHECK(diag::catalogue::find(d->code) == d);
    CHECK(diag::catalogue::find(d->name) == d);
  }
  const std::string header = read_file(root() / "src/diag/catalogue.hpp");
  std::set<std::string> declared = matches(header, "Def<[0-9]+> [a-z_]+\\{\"([A-Z][0-9]{3})\"");
  CHECK(declared.size() == all.size());
  for (const std::string& code : declared)
    CHECK_MESSAGE(codes.count(code) == 1, code, " is not in the list of catalogue.cpp");
}

TEST_CASE("a rule is a file by its name, and is run") {
  const std::string list = read_file(root() / "src/rules/rules.def");
  std::set<std::string> files;
  for (const auto& e : std::filesystem::directory_iterator(root() / "src/rules")) {
    const std::string name = e.path().stem();
    const bool of_all = name == "rules" || name == "unsettled"; // about all of them
    if (e.path().extension() == ".cpp" && !of_all) files.insert(name);
  }
  CHECK(files.size() >= 12);
  for (const std::string& name : files) {
    CAPTURE(name);
    CHECK(std::regex_search(list, std::regex(", " + name + "\\)")));
    CHECK(diag::catalogue::find(name) != nullptr);
  }
  for (const diag::Definition* d : diag::catalogue::all()) {
    if (d->code.front() == 'P')
      CHECK_MESSAGE(files.count(std::string(d->name)) == 1, std::string(d->name));
  }
}

TEST_CASE("docs/levels.md has every finding, below its level") {
  std::string out;
  for (const auto& [level, title] :
       {std::pair{diag::Severity::error, "Errors"}, std::pair{diag::Severity::warning, "Warnings"},
        std::pair{diag::Severity::advice, "Advice"}}) {
    out += fmt::format("\n### {}\n\n", title);
    for (const diag::Definition* d : diag::catalogue::all()) {
      if (d->severity != level) continue;
      const std::string page = read_file(root() / fmt::format("docs/diagnostics/{}.md", d->code));
      // A page begins with its heading; the paragraph below it says what is meant.
      const std::size_t from = page.find("\n\n") + 2;
      out += fmt::format("- [{0}](diagnostics/{0}.md) `{1}`: {2}\n", d->code, d->name,
                         page.substr(from, page.find('\n', from) - from));
    }
  }
  hold_between("docs/levels.md", "<!-- levels -->", "<!-- end -->", out + "\n");
}

TEST_CASE("docs/model.md has the spreads of mouths, and what hangs together") {
  using mouths::Spread;
  const auto by = [](const Spread& s) {
    const std::string size = s.what == mouths::Varies::tooth_size ? fmt::format("{} %", 100 * s.by)
                                                                  : fmt::format("{} mm", s.by);
    return s.range ? size + " both ways, all alike likely" : "+- " + size;
  };
  const auto origin = [](physics::Origin o) {
    return o == physics::Origin::published  ? "published"
           : o == physics::Origin::handbook ? "handbook"
                                            : "assumed";
  };
  std::string out =
      "\n| what varies | adults | source | children | source |\n|---|---|---|---|---|\n";
  const auto adults = mouths::spreads(physics::Dentition::adult);
  const auto children = mouths::spreads(physics::Dentition::mixed);
  for (std::size_t i = 0; i < adults.size(); ++i)
    out += fmt::format("| {} | {} | {}: {} | {} | {}: {} |\n", adults[i].id, by(adults[i]),
                       origin(adults[i].origin), adults[i].source, by(children[i]),
                       origin(children[i].origin), children[i].source);
  out += "\n| one | another | r | source |\n|---|---|---|---|\n";
  for (const mouths::Correlation& c : mouths::correlations())
    out +=
        fmt::format("| {} | {} | {} | {}: {} |\n", adults[static_cast<std::size_t>(c.one)].id,
                    adults[static_cast<std::size_t>(c.other)].id, c.r, origin(c.origin), c.source);
  hold_between("docs/model.md", "<!-- spreads -->", "<!-- end -->", out + "\n");
}

TEST_CASE("the grammar's units are those of the table") {
  const std::string grammar = read_file(root() / "grammar/norma.ebnf");
  const std::size_t at = grammar.find("\nunit ");
  REQUIRE(at != std::string::npos);
  const std::string rule = grammar.substr(at, grammar.find(';', at) - at);
  std::set<std::string> units;
  for (const words::Unit& u : words::units())
    units.emplace(u.name);
  CHECK(matches(rule, "\"([^\"]+)\"") == units);
}

TEST_CASE("the fuzz dictionary holds every word, unit and sign") {
  std::string out = "# Tokens of norma for fuzzers, made from the table of words.\n";
  for (const std::string& word : words::all_words())
    out += fmt::format("\"{}\"\n", word);
  for (const words::Unit& u : words::units())
    out += fmt::format("\"{}\"\n", u.name);
  for (const char* sign : {"{", "}", ",", "=", "#", "\\\"", "\\\\", "+-", "f/22", "1:2", "1/125 s",
                           "2026-09-01", "0.5", "11", "17 to 27", "\\x0a", "\\xef\\xbb\\xbf"})
    out += fmt::format("\"{}\"\n", sign);
  hold_file("grammar/norma.dict", out);
}

TEST_CASE("every example of the table of words can be read") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("five.norma", read_file(root() / "protocols/five.norma"));
  for (const words::Word& w : words::vocabulary()) {
    CAPTURE(std::string(w.name));
    const std::string views = "view a \"A\" { }\nview right \"R\" { }\nview front \"F\" { }\n"
                              "view upper \"U\" { }\nview lower \"L\" { }\n";
    std::string text;
    const std::string example(w.example);
    const std::string base = "  builds on harbour_five from \"five.norma\"\n";
    std::string before;
    if (example.find("that tooth") != std::string::npos) before = "tooth named at the chair\n";
    if (example.find("that site") != std::string::npos) before = "site named at the chair\n";
    if ((w.places & words::in_file) != 0) {
      text =
          w.name == "norma" ? example + "\nprotocol p \"P\" { }\n" : "norma 1\n" + example + "\n";
    } else if ((w.places & words::in_protocol) != 0) {
      const bool edits = w.name.starts_with("change") || w.name == "drop view";
      const std::string own = edits || w.name == "builds on" ? (edits ? base : "")
                              : w.name == "view"             ? views
                                                             : views + "view left \"L\" { }\n";
      // Dropping a view that a series lists is a finding: the series is written anew.
      const std::string after = w.name == "drop view" ? "\nchange series record = front, upper"
                                                        "\nchange series full = front, upper"
                                                      : "";
      text = "norma 1\nprotocol p \"P\" {\n" + own + example + after + "\n}\n";
    } else if ((w.places & (words::in_view | words::in_every)) == 0) {
      text = "norma 1\nprotocol p \"P\" {\nface view v \"V\" {\n" + example + "\n}\n}\n";
    } else {
      text = "norma 1\nprotocol p \"P\" {\n" + views + "view v \"V\" {\n" + before + example +
             "\n}\n}\n";
    }
    write_file("p.norma", text);
    const cli::Outcome o = cli::run({"check", "--on", "2026-11-25", "p.norma"});
    // Rules may complain of what the small view lacks; what is written must be read.
    CHECK_MESSAGE(std::regex_search(o.out, std::regex("\\[[SRMK][0-9]{3} ")) == false, o.out);
  }
}

TEST_CASE("docs/language.md has every word, its forms and its example") {
  std::string out = "\n";
  for (const words::Word& w : words::vocabulary()) {
    std::string name(w.name);
    if (w.name == "for") {
      name += (w.places & words::in_protocol) != 0 ? " (in a protocol)" : " (a block in a view)";
    }
    out += fmt::format("### {}\n\n{}{}. Stands in: {}.\n\n", name,
                       static_cast<char>(std::toupper(w.help.front())), w.help.substr(1),
                       words::places_text(w.places));
    out += fmt::format("    {}\n\n", w.example);
    if (!w.absence.empty()) out += fmt::format("Taken away by `no {}`.\n\n", w.absence);
    if (w.clauses.empty()) continue;
    const std::string head = w.key.empty()
                                 ? std::string(w.name)
                                 : fmt::format("{} ({})", w.name, words::pattern_text(w.key));
    out += fmt::format("Behind `{}`:\n\n", head);
    for (const words::Clause& c : w.clauses) {
      out += fmt::format("- `{}`", words::pattern_text(c.pattern));
      for (const std::string& note : words::clause_notes(w, c))
        out += ", " + note;
      out += "\n";
    }
    out += "\n";
  }
  hold_between("docs/language.md", "<!-- words -->", "<!-- end -->", out);
}

TEST_CASE("no synonym is a word of its own where it would be offered") {
  for (const words::Word& w : words::vocabulary()) {
    std::string_view synonyms = w.synonyms;
    while (!synonyms.empty()) {
      const std::size_t stop = std::min(synonyms.find(','), synonyms.size());
      const std::string one = words_in(synonyms.substr(0, stop));
      CAPTURE(one);
      CHECK(words::find_word(one, w.places) == nullptr);
      synonyms.remove_prefix(std::min(stop + 2, synonyms.size()));
    }
  }
}

TEST_CASE(
    "each question that a fact can leave open settles some finding, and each such finding is") {
  const std::set<std::string> asked =
      matches(read_file(root() / "src/facts/facts.def"), R"re(&question::(\w+)\))re");
  REQUIRE(asked.size() > 10);
  std::set<std::string> settled;
  for (const rules::Unsettled& row : rules::unsettled_table()) {
    REQUIRE(row.finding != nullptr);
    REQUIRE(row.question != nullptr);
    settled.emplace(row.question->id);
  }
  for (const std::string& question : asked) {
    CAPTURE(question);
    CHECK(settled.count("question." + question) == 1);
  }
}

} // namespace norma::test
