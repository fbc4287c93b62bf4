// The other side and the other jaw of a symbol.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "words/vocabulary.hpp"

namespace norma::words {
namespace {

using Pair = std::pair<std::string_view, std::string_view>;
constexpr Pair sides[] = {{"left", "right"}};
constexpr Pair jaws[] = {{"upper", "lower"}, {"up", "down"}, {"above", "below"}, {"top", "bottom"}};

std::string changed_over(std::string_view symbol, std::span<const Pair> pairs) {
  std::string out;
  std::size_t at = 0;
  while (at <= symbol.size()) {
    const std::size_t stop = std::min(symbol.find(' ', at), symbol.size());
    std::string_view piece = symbol.substr(at, stop - at);
    for (const auto& [a, b] : pairs) {
      if (piece == a) {
        piece = b;
      } else if (piece == b) {
        piece = a;
      }
    }
    if (at > 0) out += ' ';
    out += piece;
    at = stop + 1;
  }
  return out;
}

/// All symbols and keys of the word table that change over, with what they become, and back.
class Changes {
 public:
  explicit Changes(std::span<const Pair> pairs) {
    for (const CompiledWord& word : compiled_vocabulary()) {
      for (const std::string_view key : word.keys)
        add(key, pairs);
      for (const Pattern& pattern : word.patterns) {
        for (const std::string_view symbol : pattern.symbols())
          add(symbol, pairs);
      }
    }
    std::sort(changes_.begin(), changes_.end());
    changes_.erase(std::unique(changes_.begin(), changes_.end()), changes_.end());
  }
  [[nodiscard]] std::string_view operator()(std::string_view symbol) const {
    const auto found =
        std::lower_bound(changes_.begin(), changes_.end(), symbol,
                         [](const auto& change, std::string_view s) { return change.first < s; });
    return found == changes_.end() || found->first != symbol ? symbol : found->second;
  }

 private:
  void add(std::string_view symbol, std::span<const Pair> pairs) {
    const bool may_change = std::any_of(pairs.begin(), pairs.end(), [&](const Pair& pair) {
      return symbol.find(pair.first) != symbol.npos || symbol.find(pair.second) != symbol.npos;
    });
    if (!may_change) return;
    const std::string other = changed_over(symbol, pairs);
    if (other == symbol) return;
    changes_.emplace_back(symbol, other);
    changes_.emplace_back(other, symbol);
  }
  std::vector<std::pair<std::string, std::string>> changes_;
};

} // namespace

std::string_view other_side(std::string_view symbol) {
  static const Changes changes(sides);
  return changes(symbol);
}
std::string_view other_jaw(std::string_view symbol) {
  static const Changes changes(jaws);
  return changes(symbol);
}

} // namespace norma::words
