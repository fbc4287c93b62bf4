#include "text/suggest.hpp"

#include <algorithm>
#include <array>

namespace norma::text {
namespace {

constexpr std::size_t longest = 64;

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

} // namespace

std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t most) {
  const std::size_t difference = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
  if (a.size() > longest || b.size() > longest || difference > most) return most + 1;
  std::array<std::size_t, longest + 1> before{}, last{}, now{};
  for (std::size_t j = 0; j <= b.size(); ++j)
    last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = lower(a[i - 1]) == lower(b[j - 1]);
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (same ? 0u : 1u)});
      if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) &&
          lower(a[i - 2]) == lower(b[j - 1])) {
        now[j] = std::min(now[j], before[j - 2] + 1);
      }
    }
    before = last;
    last = now;
  }
  return std::min(last[b.size()], most + 1);
}

std::optional<std::string_view> nearest(std::string_view word,
                                        std::span<const std::string_view> candidates) {
  std::size_t best = (word.size() <= 4 ? 1u : word.size() <= 8 ? 2u : 3u) + 1;
  std::optional<std::string_view> found;
  for (const std::string_view candidate : candidates) {
    const std::size_t edits = edit_distance(word, candidate, best);
    if (edits < best) {
      best = edits;
      found = candidate;
    }
  }
  return found;
}

} // namespace norma::text
