// Finding words in the table: by name, by place, by what they structure.
#include <algorithm>
#include <unordered_map>

#include "words/vocabulary.hpp"

namespace norma::words {
namespace {

std::vector<std::string_view> split(std::string_view s, char by) {
  std::vector<std::string_view> out;
  std::size_t at = 0;
  while (at < s.size()) {
    const std::size_t stop = std::min(s.find(by, at), s.size());
    if (stop > at) out.emplace_back(s.substr(at, stop - at));
    at = stop + 1;
  }
  return out;
}

} // namespace

const Word* find_word(std::string_view name, unsigned place) {
  const std::span<const Word> table = vocabulary();
  const auto found = std::find_if(table.begin(), table.end(), [&](const Word& w) {
    return w.name == name && (w.places & place) != 0;
  });
  return found == table.end() ? nullptr : &*found;
}

int structure_level(std::string_view first_word) {
  static const std::vector<Word> structure = [] {
    std::vector<Word> out;
    for (const Word& w : vocabulary()) {
      if (w.level > 0) out.push_back(w);
    }
    return out;
  }();
  for (const Word& w : structure) {
    if (w.name.starts_with(first_word) &&
        (w.name.size() == first_word.size() || w.name[first_word.size()] == ' ')) {
      return w.level;
    }
  }
  return 0;
}

std::string_view key_of(const Word& word, std::string_view text) {
  const std::vector<std::string_view> keys = split(word.key, '|');
  const auto found = std::find(keys.begin(), keys.end(), text);
  return found == keys.end() ? std::string_view() : *found;
}

std::vector<std::string> clause_notes(const Word& word, const Clause& clause) {
  std::vector<std::string> out;
  if (clause.required) out.emplace_back("must be there");
  if (clause.repeats) out.emplace_back("may come again");
  for (const Clause& other : word.clauses) {
    if (!clause.with.empty() && other.slot == clause.with)
      out.push_back("together with `" + pattern_text(other.pattern) + "`");
  }
  return out;
}

bool adds(const Word& word) {
  return word.repeat == Repeat::list || std::any_of(word.clauses.begin(), word.clauses.end(),
                                                    [](const Clause& c) { return c.repeats; });
}

std::span<const CompiledWord> compiled_vocabulary() {
  static const std::vector<CompiledWord> compiled = [] {
    std::vector<CompiledWord> out;
    for (const Word& word : vocabulary()) {
      CompiledWord c{&word, split(word.name, ' '), {}, split(word.key, '|')};
      for (const Clause& clause : word.clauses)
        c.patterns.emplace_back(clause.pattern);
      out.push_back(std::move(c));
    }
    return out;
  }();
  return compiled;
}

std::span<const CompiledWord* const> starting_with(std::string_view first_word) {
  static const std::unordered_map<std::string_view, std::vector<const CompiledWord*>> index = [] {
    std::unordered_map<std::string_view, std::vector<const CompiledWord*>> out;
    for (const CompiledWord& word : compiled_vocabulary())
      out[word.parts.front()].push_back(&word);
    return out;
  }();
  const auto found = index.find(first_word);
  if (found == index.end()) return {};
  return found->second;
}

std::vector<std::string> all_words() {
  std::vector<std::string> out;
  for (const CompiledWord& c : compiled_vocabulary()) {
    out.insert(out.end(), c.parts.begin(), c.parts.end());
    out.insert(out.end(), c.keys.begin(), c.keys.end());
    for (const Pattern& pattern : c.patterns) {
      const std::vector<std::string> words = pattern.words();
      out.insert(out.end(), words.begin(), words.end());
    }
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

} // namespace norma::words
