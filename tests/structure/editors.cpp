// The files of editors: their lists are those of the table of words, and vim colours as they say.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <cstdlib>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "generated.hpp"
#include "support/support.hpp"
#include "words/literal.hpp"
#include "words/vocabulary.hpp"

namespace norma::test {
namespace {

const std::set<std::string> own_groups{"facial",  "buccal",  "labial",  "occlusal",
                                       "incisal", "lingual", "palatal", "left",
                                       "right",   "upper",   "lower",   "both"};

/// Names of words, fewest parts first: later matches win in vim.
std::vector<std::string> names() {
  std::set<std::string> all;
  for (const words::Word& w : words::vocabulary())
    all.emplace(w.name);
  std::vector<std::string> out(all.begin(), all.end());
  std::stable_sort(out.begin(), out.end(), [](const std::string& a, const std::string& b) {
    return std::count(a.begin(), a.end(), ' ') < std::count(b.begin(), b.end(), ' ');
  });
  return out;
}

/// The group vim gives to the characters at each `line`:`column` of a text.
std::vector<std::string> groups(const std::string& text,
                                const std::vector<std::pair<int, int>>& places) {
  const Folder folder;
  write_file(folder.path() / "x.norma", text);
  std::string script = fmt::format(
      "set nocompatible noswapfile\nset runtimepath={}\nsyntax on\n"
      "edit {}\nset filetype=norma\nsyntax sync fromstart\nlet out = []\n",
      (root() / "editors/vim").string() + ",$VIMRUNTIME", (folder.path() / "x.norma").string());
  for (const auto& [line, column] : places)
    script +=
        fmt::format("call add(out, synIDattr(synID({}, {}, 1), 'name') . '.')\n", line, column);
  script += fmt::format("call writefile(out, '{}')\nqall!\n", (folder.path() / "out").string());
  write_file(folder.path() / "script.vim", script);
  const std::string command = fmt::format("HOME={0} TERM=dumb timeout 30 vim -u NONE -i NONE -n "
                                          "-es -S {0}/script.vim </dev/null >{0}/log 2>&1",
                                          folder.path().string());
  const int code = std::system(command.c_str());
  REQUIRE_MESSAGE(std::filesystem::exists(folder.path() / "out"),
                  "vim did not run (package vim-nox), exit ", code);
  std::istringstream in(read_file(folder.path() / "out"));
  std::vector<std::string> out;
  for (std::string line; std::getline(in, line);)
    out.push_back(line.substr(0, line.size() - 1));
  return out;
}

} // namespace

TEST_CASE("the vim file's lists are made from the table of words") {
  std::string statements;
  for (const std::string& name : names()) {
    std::string pattern;
    for (const char c : name)
      pattern += c == ' ' ? std::string("\\s\\+") : std::string(1, c);
    statements +=
        fmt::format("syntax match normaWord /\\%(^\\|{{\\)\\@<=\\s*\\zs{}\\>/\n", pattern);
  }
  hold_between("editors/vim/syntax/norma.vim", "\" words: begin", "\" words: end", statements);

  // Behind `also` and `no`: the longest first, an alternation takes the first that fits.
  std::vector<std::string> longest = names();
  std::stable_sort(longest.begin(), longest.end(),
                   [](const std::string& a, const std::string& b) { return a.size() > b.size(); });
  std::string changed;
  for (const std::string& name : longest) {
    changed += changed.empty() ? "" : "\\|";
    for (const char c : name)
      changed += c == ' ' ? std::string("\\s\\+") : std::string(1, c);
  }
  hold_between("editors/vim/syntax/norma.vim", "\" changed words: begin", "\" changed words: end",
               fmt::format("syntax match normaChanged /\\%({}\\)\\>/ contained\n", changed));

  std::string clauses;
  for (const std::string& word : words::all_words()) {
    if (own_groups.count(word) == 1 || word == "=") continue;
    clauses += fmt::format("syntax match normaClause /\\<{}\\>/\n", word);
  }
  hold_between("editors/vim/syntax/norma.vim", "\" clauses: begin", "\" clauses: end", clauses);

  std::string units;
  for (const words::Unit& u : words::units()) {
    if (u.name != "%") units += fmt::format("{}{}", units.empty() ? "" : "\\|", u.name);
  }
  hold_between(
      "editors/vim/syntax/norma.vim", "\" units: begin", "\" units: end",
      fmt::format("syntax match normaMeasure "
                  "/[+-]\\?\\<\\d\\+\\%(\\/\\d\\+\\|\\.\\d\\+\\)\\?\\s*\\%(\\%({}\\)\\>\\|%\\)/\n",
                  units));
}

TEST_CASE("the lists of emacs's mode are made from the table of words") {
  const auto hold = [](const std::string& list, const std::vector<std::string>& words) {
    // As many on a line as it has room for.
    constexpr std::size_t widest = 90;
    std::string lines;
    std::string line;
    for (const std::string& word : words) {
      if (!line.empty() && line.size() + word.size() + 3 > widest)
        lines += std::exchange(line, "") + "\n";
      line += fmt::format("{}\"{}\"", line.empty() ? "    " : " ", word);
    }
    hold_between("editors/emacs/norma-mode.el", fmt::format("    ;; {}: begin", list),
                 fmt::format("    ;; {}: end", list), lines + line + "\n");
  };
  hold("statements", names());
  std::vector<std::string> clauses;
  for (const std::string& word : words::all_words()) {
    if (own_groups.count(word) == 0 && word != "=") clauses.push_back(word);
  }
  hold("clauses", clauses);
  std::vector<std::string> units;
  for (const words::Unit& u : words::units()) {
    if (u.name != "%") units.emplace_back(u.name);
  }
  hold("units", units);
}

TEST_CASE("the TextMate grammar is made from the table of words") {
  const auto alternatives = [](std::vector<std::string> words) {
    // The longest first: a grammar takes the first that fits.
    std::stable_sort(words.begin(), words.end(), [](const std::string& a, const std::string& b) {
      return a.size() > b.size();
    });
    std::string out;
    for (const std::string& word : words) {
      out += out.empty() ? "" : "|";
      for (const char c : word)
        out += c == ' ' ? std::string("\\\\s+") : std::string(1, c);
    }
    return out;
  };
  std::vector<std::string> clauses;
  for (const std::string& word : words::all_words()) {
    if (own_groups.count(word) == 0 && word != "=") clauses.push_back(word);
  }
  std::vector<std::string> units;
  for (const words::Unit& u : words::units()) {
    if (u.name != "%") units.emplace_back(u.name);
  }
  struct Row {
    std::string scope;
    std::string match;
  };
  const std::string number = "[+-]?\\\\b\\\\d+(?:/\\\\d+|\\\\.\\\\d+)?";
  const Row rows[] = {
      {"constant.other.date.norma", "\\\\b\\\\d{4}-\\\\d\\\\d-\\\\d\\\\d\\\\b"},
      {"constant.numeric.ratio.norma", "\\\\b\\\\d+(?:\\\\.\\\\d+)?:\\\\d+(?:\\\\.\\\\d+)?\\\\b"},
      {"constant.numeric.f-number.norma", "\\\\bf/\\\\d+(?:\\\\.\\\\d+)?\\\\b"},
      {"invalid.illegal.comma.norma", "\\\\b\\\\d+,\\\\d+\\\\b"},
      {"constant.numeric.measure.norma",
       number + "\\\\s*(?:(?:" + alternatives(units) + ")\\\\b|%)"},
      {"constant.numeric.norma", number + "\\\\b"},
      {"constant.other.view-code.norma", "\\\\b[EI]V\\\\d\\\\d\\\\b"},
      {"support.type.surface.norma",
       "\\\\b(?:facial|buccal|labial|occlusal|incisal|lingual|palatal)\\\\b"},
      {"constant.language.side.norma", "\\\\b(?:left|right|upper|lower|both)\\\\b"},
      {"variable.parameter.clause.norma", "\\\\b(?:" + alternatives(clauses) + ")\\\\b"},
  };
  const std::string comment =
      R"json({"name": "comment.line.number-sign.norma", "match": "#.*$"})json";
  std::string out = R"json({
  "name": "norma",
  "scopeName": "source.norma",
  "fileTypes": ["norma"],
  "patterns": [
    )json" + comment +
                    R"json(,
    {"name": "string.quoted.double.norma", "begin": "\"",
     "end": "\"|$", "patterns": [
      {"name": "constant.character.escape.norma", "match": "\\\\[\"\\\\]"}]},
    {"begin": ",\\s*(?:#.*)?$", "end": "(?=[^\\s#])", "patterns": [
      )json" + comment +
                    R"json(]},
    {"begin": "=", "end": "(?<=[a-z0-9_])\\s*(?=#|\\}|$)", "patterns": [
      )json" + comment +
                    R"json(,
      {"name": "variable.parameter.clause.norma", "match": "\\boptional\\b"},
      {"name": "entity.name.section.norma", "match": "\\b[a-z_][a-z0-9_]*"}]},
    {"match": "(?:(?<=\\bview)|(?<=\\bseries)|(?<=\\bprotocol)|(?<=\\bsame as)|(?<=\\bbuilds on))\\s+([a-z_][a-z0-9_]*)\\b",
     "captures": {"1": {"name": "entity.name.section.norma"}}},
)json";
  out += fmt::format("    {{\"match\": \"(?:^|(?<=\\\\{{))\\\\s*(?:(also|no)\\\\s+)?({})\\\\b\",\n"
                     "     \"captures\": {{\"1\": {{\"name\": \"keyword.operator.norma\"}},\n"
                     "                  \"2\": {{\"name\": \"keyword.control.norma\"}}}}}}",
                     alternatives(names()));
  for (const Row& row : rows) {
    out += fmt::format(",\n    {{\"name\": \"{}\", \"match\": \"{}\"}}", row.scope, row.match);
  }
  hold_file("editors/textmate/norma.tmLanguage.json", out + "\n  ]\n}\n");
}

TEST_CASE("vim colours a protocol by the table's words") {
  const std::string text = "norma 1\n"
                           "protocol p \"P \\\" q\" { # note must show\n"
                           "  view right \"Right\" {\n"
                           "    must show  facial 16 to 27, lingual 12\n"
                           "    aperture f/22 to f/32\n"
                           "    ratio 1:2\n"
                           "    adopted 2026-09-01\n"
                           "    shutter 1/125 s\n"
                           "    code IV07\n"
                           "    mirror occlusal, held by assistant\n"
                           "    mustshow 0,5\n"
                           "    also must show facial 11,\n"
                           "      retractor\n"
                           "    no mirror\n"
                           "  }\n"
                           "  series left = upper, right optional,\n"
                           "    front\n"
                           "  for adults\n"
                           "}\n";
  struct Row {
    int line;
    int column;
    const char* group;
  };
  const Row rows[] = {
      {1, 1, "normaWord"},
      {1, 7, "normaNumber"},
      {2, 1, "normaWord"},
      {2, 14, "normaText"},
      {2, 15, "normaEscape"},
      {2, 25, "normaComment"},
      {2, 31, "normaComment"},
      {3, 3, "normaWord"},
      {3, 8, "normaName"},
      {4, 5, "normaWord"},
      {4, 10, "normaWord"},
      {4, 16, "normaSurface"},
      {4, 23, "normaNumber"},
      {4, 26, "normaClause"},
      {5, 14, "normaAperture"},
      {6, 11, "normaRatio"},
      {7, 13, "normaDate"},
      {8, 13, "normaMeasure"},
      {8, 19, "normaMeasure"},
      {9, 10, "normaCode"},
      {10, 12, "normaSurface"},
      {10, 22, "normaClause"},
      {11, 5, ""},
      {11, 15, "normaWrong"},
      {12, 5, "normaChange"},
      {12, 10, "normaChanged"},
      {12, 15, "normaChanged"},
      {12, 20, "normaSurface"},
      {13, 7, "normaClause"}, // the line goes on
      {14, 5, "normaChange"},
      {14, 8, "normaChanged"},
      {16, 3, "normaWord"},
      {16, 10, "normaName"},
      {16, 17, "normaListed"},
      {16, 30, "normaOptional"},
      {17, 5, "normaListed"},
      {18, 3, "normaWord"},
  };
  std::vector<std::pair<int, int>> places;
  for (const Row& row : rows)
    places.emplace_back(row.line, row.column);
  const std::vector<std::string> got = groups(text, places);
  REQUIRE(got.size() == places.size());
  for (std::size_t i = 0; i < got.size(); ++i) {
    CAPTURE(rows[i].line);
    CAPTURE(rows[i].column);
    CHECK(got[i] == rows[i].group);
  }
}

} // namespace norma::test
