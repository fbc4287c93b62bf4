// The other side and the other jaw of a symbol.
#include <utility>

#include "words/vocabulary.hpp"

namespace norma::words {
namespace {

constexpr std::pair<std::string_view, std::string_view> sides[] = {{"left", "right"}};
constexpr std::pair<std::string_view, std::string_view> jaws[] = {
    {"upper", "lower"}, {"up", "down"}, {"above", "below"}, {"top", "bottom"}};

template <std::size_t N>
std::string changed_over(std::string_view symbol,
                         const std::pair<std::string_view, std::string_view> (&pairs)[N]) {
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

} // namespace

std::string other_side(std::string_view symbol) { return changed_over(symbol, sides); }
std::string other_jaw(std::string_view symbol) { return changed_over(symbol, jaws); }

} // namespace norma::words
