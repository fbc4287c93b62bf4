// Prose stands in src/wording alone: rules, plan and pages name rows, and hold no sentences.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "support/support.hpp"
#include "words/vocabulary.hpp"

namespace norma::test {
namespace {

namespace fs = std::filesystem;

/// Files, and folders (with a slash at their end), whose prose is not made rows, and why.
const std::vector<std::string_view> not_yet{
    "src/emit/github.cpp",           // machines are told in English
    "src/emit/junit.cpp",            // as before
    "src/emit/card_html.cpp",        // elements of HTML
    "src/emit/card_rows_html.cpp",   // the same
    "src/emit/comparison_html.cpp",  // the same
    "src/emit/document_html.cpp",    // the same
    "src/emit/html.cpp",             // the same
    "src/emit/kit_words.cpp",        // the kit's tables tell their values in English
    "src/emit/sarif.cpp",            // machines are told in English
    "src/emit/off_plan_picture.cpp", // elements of SVG
    "src/live/page.cpp",             // elements of HTML
    "src/live/site.cpp",             // headers of HTTP
    "src/server/documents.cpp",      // a key of a kit
    "src/server/folder_files.cpp",   // why a file cannot be read, as src/text says it
};

bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n'; }
bool is_name(char c) {
  return is_lower(c) || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/// What stands in the string literals of a source, in its order; literals that stand side by side
/// are one. Comments and what is included are left out. An escaped character comes out as itself.
std::vector<std::string> literals(std::string_view source) {
  std::vector<std::string> out;
  bool joins = false; // nothing but blanks and comments since the last literal
  std::size_t i = 0;
  const auto at = [&](std::size_t k) { return k < source.size() ? source[k] : '\0'; };
  const auto skip_to = [&](std::string_view end) {
    i = std::min(source.find(end, i), source.size());
  };
  while (i < source.size()) {
    const char c = source[i];
    if (c == '/' && at(i + 1) == '/') {
      skip_to("\n");
    } else if (c == '/' && at(i + 1) == '*') {
      i += 2;
      skip_to("*/");
      i += 2;
    } else if (c == '#' && source.substr(i, 8) == "#include") {
      skip_to("\n");
    } else if (c == '\'' && !(i > 0 && is_name(source[i - 1]))) { // else it parts digits
      for (++i; i < source.size() && source[i] != '\''; ++i)
        i += source[i] == '\\' ? 1 : 0;
      ++i;
      joins = false;
    } else if (c == '"') {
      if (!joins) out.emplace_back();
      if (i > 0 && source[i - 1] == 'R') {
        const std::size_t open = std::min(source.find('(', i), source.size());
        const std::string end = ")" + std::string(source.substr(i + 1, open - i - 1)) + "\"";
        i = std::min(open + 1, source.size());
        const std::size_t from = i;
        skip_to(end);
        out.back() += source.substr(from, i - from);
        i += end.size();
      } else {
        for (++i; i < source.size() && source[i] != '"'; ++i) {
          if (source[i] == '\\') ++i;
          if (i < source.size()) out.back() += source[i];
        }
        ++i;
      }
      joins = true;
    } else {
      joins = joins && (is_blank(c) || (c == 'R' && at(i + 1) == '"'));
      ++i;
    }
  }
  return out;
}

/// Two words of lower-case letters, parted by blanks (a comma, semicolon or colon before them
/// does not matter).
bool is_prose(std::string_view text) {
  for (std::size_t i = 1; i < text.size(); ++i) {
    if (!is_blank(text[i])) continue;
    std::size_t end = i; // of the word before
    if (std::string_view(",;:").find(text[end - 1]) != std::string_view::npos) --end;
    std::size_t begin = end;
    while (begin > 0 && is_lower(text[begin - 1]))
      --begin;
    std::size_t next = i;
    while (next < text.size() && is_blank(text[next]))
      ++next;
    std::size_t stop = next;
    while (stop < text.size() && is_lower(text[stop]))
      ++stop;
    const bool whole_before = begin < end && (begin == 0 || !is_name(text[begin - 1]));
    const bool whole_behind = next < stop && (stop == text.size() || !is_name(text[stop]));
    if (whole_before && whole_behind) return true;
  }
  return false;
}

/// What a protocol may say in several words, by the table: `on the mirror`, `large end`. A rule
/// that looks for one of them says nothing by it.
std::set<std::string> phrases_of_language() {
  std::set<std::string> out;
  const auto add = [&](std::string_view pattern) {
    while (!pattern.empty()) {
      const std::size_t stop = std::min(pattern.find_first_of("(|)[]"), pattern.size());
      out.emplace(pattern.substr(0, stop));
      pattern.remove_prefix(std::min(stop + 1, pattern.size()));
    }
  };
  for (const words::Word& w : words::vocabulary()) {
    out.emplace(w.name);
    add(w.key);
    for (const words::Clause& c : w.clauses)
      add(c.pattern);
  }
  return out;
}

std::vector<std::string> prose_of(std::string_view source) {
  static const std::set<std::string> phrases = phrases_of_language();
  std::vector<std::string> out;
  for (const std::string& text : literals(source)) {
    if (is_prose(text) && phrases.count(text) == 0) out.push_back(text);
  }
  return out;
}

/// The row of `not_yet` that names the file; "" where none does.
std::string_view excused(std::string_view file) {
  const auto row = std::find_if(not_yet.begin(), not_yet.end(), [&](std::string_view r) {
    return r.back() == '/' ? file.starts_with(r) : file == r;
  });
  return row == not_yet.end() ? std::string_view() : *row;
}

} // namespace

TEST_CASE("what counts as prose in a source") {
  using Texts = std::vector<std::string>;
  CHECK(literals("a(\"one\", \"two\");") == Texts{"one", "two"});
  CHECK(literals("\"one \"\n  // \"no\"\n  \"two\" /* \"no\" */ \"three\"") ==
        Texts{"one twothree"});
  CHECK(literals("#include \"a b\"\nx = \"say \\\"so\\\"\\\\\";") == Texts{"say \"so\"\\"});
  CHECK(literals("c == '\"' ? 1'000 : '\\'' + \"x\"") == Texts{"x"});
  CHECK(literals("R\"re(a \"b\" \\w)re\" R\"(c)\"") == Texts{"a \"b\" \\wc"});
  CHECK(literals("\"open").size() == 1);
  CHECK(literals("R\"open").size() == 1);

  for (const char* prose :
       {"the mirror", "wet it", "wet, then", "{} wide, would", "`{}` has a", "at   once\n"})
    CHECK_MESSAGE(is_prose(prose), std::string(prose));
  for (const char* other : {"", " ", "mirror", "mirror ", " mirror", "Quarry Lane", "f/22 to 1:2",
                            "a_b c_d", "fact.mirror_width", "{} on {}", "36 x 24 mm"})
    CHECK_MESSAGE(!is_prose(other), std::string(other));

  CHECK(prose_of("what == \"on the mirror\" || end == \"large end\"").empty());
  CHECK(prose_of("what == \"on the moon\"") == Texts{"on the moon"});
}

TEST_CASE("no prose in rules, plan and pages") {
  std::set<std::string_view> needed;
  std::size_t seen = 0;
  for (const char* folder :
       {"src/facts", "src/plan", "src/rules", "src/emit", "src/live", "src/server"}) {
    for (const auto& e : fs::recursive_directory_iterator(root() / folder)) {
      if (e.path().extension() != ".cpp" && e.path().extension() != ".hpp") continue;
      ++seen;
      const std::string file = fs::relative(e.path(), root()).generic_string();
      const std::vector<std::string> prose = prose_of(read_file(e.path()));
      if (prose.empty()) continue;
      if (const std::string_view row = excused(file); !row.empty()) {
        needed.insert(row);
        continue;
      }
      for (const std::string& text : prose)
        FAIL_CHECK(file, " says \"", text, "\": make it a row, and put its text into src/wording");
    }
  }
  CHECK(seen > 120);
  // Who has no prose any more, or is gone, is excused no longer.
  for (const std::string_view row : not_yet)
    CHECK_MESSAGE(needed.count(row) == 1, std::string(row),
                  " needs no excuse: take it off the list");
}

} // namespace norma::test
