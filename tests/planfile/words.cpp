// Each word of the language is in the plan file: its example, with one word changed or left out,
// makes another file, whatever is found and worked out.
#include <doctest/doctest.h>

#include <set>

#include "run.hpp"
#include "words/vocabulary.hpp"

namespace norma::test {
namespace {

const std::string base = R"(norma 1

protocol harbour_five "Five" {
  sensor 36 x 24 mm
  view front "Front" { ratio 1:2 }
  view right "Right" { ratio 1:2 }
  view upper "Upper" { ratio 1:2 }
  view lower "Lower" { ratio 1:2 }
  series record = front, right, upper, lower
}
)";

/// A file in which a line of this word stands where it may.
std::string file_with(const words::Word& word, std::string line) {
  const auto in = [&](words::Place place) { return (word.places & place) != 0; };
  if (word.name == "norma") return line + "\nprotocol p \"P\" { view front \"F\" { iso 100 } }\n";
  if (word.name == "protocol") return "norma 1\n" + line + "\n";
  if (word.name == "builds on") return "norma 1\nprotocol p \"P\" {\n" + line + "\n}\n";
  // Blocks say something.
  if (word.block && word.name != "protocol" && line.ends_with("{ }"))
    line.replace(line.size() - 3, 3, "{ iso 200 }");
  const bool edits = word.name.starts_with("change") || word.name.starts_with("drop");
  if (edits)
    return "norma 1\nprotocol p \"P\" {\n  builds on harbour_five from \"five.norma\"\n" + line +
           "\n}\n";
  std::string file = "norma 1\nprotocol p \"P\" {\n";
  const bool beside = in(words::in_protocol);
  if (beside) file += line + "\n";
  file += "  view front \"Front\" {\n" + (!beside && in(words::in_view) ? line : "") + "\n  }\n";
  file += "  view right \"Right\" { }\n  view upper \"Upper\" { }\n  view lower \"Lower\" { }\n";
  file += "  face view face \"Face\" {\n" +
          (!beside && !in(words::in_view) && in(words::in_face) ? line : "") + "\n  }\n}\n";
  return file;
}

/// The plan file without what any other byte of the protocol changes, and what rules make of it.
std::string said_by(const std::string& file) {
  planfile::Document d = document_of({{"p.norma", file}, {"five.norma", base}}, {}, false);
  for (planfile::File& f : d.files)
    f.sha256 = {};
  d.findings.clear();
  d.not_listed = {};
  for (planfile::Plan& p : d.plans) {
    p.fingerprint.reset();
    p.findings.clear();
  }
  return planfile::write(d);
}

/// The example with one word, number or text changed, in each way that its patterns allow.
std::vector<std::string> edits_of(const words::Word& word) {
  const std::string example(word.example);
  std::set<std::string> out;
  const std::size_t behind = word.name.size();
  // Numbers and texts.
  for (std::size_t i = behind; i < example.size(); ++i) {
    const bool digit = example[i] >= '0' && example[i] <= '9';
    const bool last = i + 1 == example.size() || example[i + 1] < '0' || example[i + 1] > '9';
    const bool in_word =
        i > 0 && ((example[i - 1] | 0x20) >= 'a' && (example[i - 1] | 0x20) <= 'z');
    if (digit && last && !in_word) {
      std::string edit = example;
      edit[i] = example[i] == '8' ? '7' : static_cast<char>('1' + (example[i] - '0') % 8);
      out.insert(edit);
    }
  }
  for (const std::string_view from : {"f/22", "f/32", "IV07"}) {
    const std::size_t at = example.find(from, behind);
    if (at == std::string::npos) continue;
    std::string edit = example;
    edit.replace(at, from.size(), from == "f/22" ? "f/16" : from == "f/32" ? "f/45" : "IV08");
    out.insert(edit);
  }
  const std::size_t quote = example.find('"', behind);
  if (quote != std::string::npos) out.insert(std::string(example).insert(quote + 1, "X"));
  // One choice for another.
  for (const words::Clause& clause : word.clauses) {
    const std::string pattern(clause.pattern);
    for (std::size_t open = pattern.find('('); open != std::string::npos;
         open = pattern.find('(', open + 1)) {
      std::vector<std::string> choices{""};
      for (std::size_t i = open + 1; pattern[i] != ')'; ++i) {
        if (pattern[i] == '|')
          choices.emplace_back();
        else
          choices.back() += pattern[i];
      }
      std::string longest; // of those that the example has
      for (const std::string& choice : choices) {
        if (example.find(choice, behind) != std::string::npos && choice.size() > longest.size())
          longest = choice;
      }
      if (longest.empty()) continue;
      for (const std::string& choice : choices) {
        if (choice == longest) continue;
        std::string edit = example;
        edit.replace(edit.find(longest, behind), longest.size(), choice);
        out.insert(edit);
      }
    }
  }
  return {out.begin(), out.end()};
}

} // namespace

TEST_CASE("one word changed changes the plan file") {
  int edited = 0;
  int left_out = 0;
  std::set<std::string_view> words_edited;
  for (const words::Word& word : words::vocabulary()) {
    CAPTURE(word.name);
    const std::string example(word.example);
    const std::string said = said_by(file_with(word, example));
    if (word.name != "norma" && word.name != "protocol") {
      CHECK_MESSAGE(said_by(file_with(word, "")) != said, "left out it changes nothing");
      ++left_out;
    }
    for (const std::string& edit : edits_of(word)) {
      CAPTURE(edit);
      CHECK_MESSAGE(said_by(file_with(word, edit)) != said, "the edit changes nothing");
      ++edited;
      words_edited.insert(word.name);
    }
  }
  CHECK(left_out > 70);
  CHECK(edited > 150);
  CHECK(words_edited.size() > 55);
}

} // namespace norma::test
