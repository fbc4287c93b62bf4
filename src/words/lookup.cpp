// Finding words in the table: by name, by place, by what they structure.
#include <algorithm>
#include <array>
#include <cstdint>

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

const Word* also_written_as(std::string_view name, unsigned place) {
  for (const Word& w : vocabulary()) {
    if ((w.places & place) == 0) continue;
    std::string_view synonyms = w.synonyms;
    while (!synonyms.empty()) {
      const std::size_t stop = std::min(synonyms.find(','), synonyms.size());
      if (synonyms.substr(0, stop) == name) return &w;
      synonyms.remove_prefix(std::min(stop + 2, synonyms.size()));
    }
  }
  return nullptr;
}

int structure_level(std::string_view first_word) {
  for (const CompiledWord* w : starting_with(first_word)) {
    if (w->word->level > 0) return w->word->level;
  }
  return 0;
}

std::string_view key_of(const Word& word, std::string_view text) {
  std::string_view keys = word.key;
  while (!keys.empty()) {
    const std::string_view key = keys.substr(0, keys.find('|'));
    if (key == text) return key;
    keys.remove_prefix(std::min(key.size() + 1, keys.size()));
  }
  return {};
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
      CompiledWord c{&word,
                     split(word.name, ' '),
                     split(word.absence.empty() ? word.name : word.absence, ' '),
                     {},
                     split(word.key, '|')};
      c.patterns.reserve(word.clauses.size());
      for (const Clause& clause : word.clauses)
        c.patterns.emplace_back(clause.pattern);
      out.push_back(std::move(c));
    }
    return out;
  }();
  return compiled;
}

namespace {

/// The table sorted by first words, and where the words with each first letter lie in it.
struct ByFirstWord {
  std::vector<const CompiledWord*> sorted;
  std::array<std::uint8_t, 27> letter{};

  ByFirstWord() {
    for (const CompiledWord& word : compiled_vocabulary())
      sorted.push_back(&word);
    const auto first = [](const CompiledWord* w) { return w->parts.front(); };
    std::stable_sort(sorted.begin(), sorted.end(),
                     [&](const auto* a, const auto* b) { return first(a) < first(b); });
    std::uint8_t at = 0;
    for (std::size_t i = 0; i < letter.size(); ++i) {
      while (at < sorted.size() && first(sorted[at])[0] < 'a' + static_cast<char>(i))
        ++at;
      letter[i] = at;
    }
  }
};

} // namespace

std::span<const CompiledWord* const> starting_with(std::string_view first_word) {
  static const ByFirstWord index;
  if (first_word.empty() || first_word[0] < 'a' || first_word[0] > 'z') return {};
  const auto letter = static_cast<std::size_t>(first_word[0] - 'a');
  std::size_t from = index.letter[letter];
  const std::size_t to = index.letter[letter + 1];
  while (from < to && index.sorted[from]->parts.front() != first_word)
    ++from;
  std::size_t stop = from;
  while (stop < to && index.sorted[stop]->parts.front() == first_word)
    ++stop;
  return std::span(index.sorted).subspan(from, stop - from);
}

std::vector<std::string> all_words() {
  std::vector<std::string> out;
  for (const CompiledWord& c : compiled_vocabulary()) {
    out.insert(out.end(), c.parts.begin(), c.parts.end());
    out.insert(out.end(), c.absence.begin(), c.absence.end());
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
