// Numbers as they stand in what another program sends.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace norma::text {

/// A whole number in decimal digits; nothing where it is none, or has more than `most_digits`
/// (18 at most).
inline std::optional<std::size_t> whole_number(std::string_view digits, std::size_t most_digits) {
  if (digits.empty() || digits.size() > most_digits) return std::nullopt;
  std::size_t out = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
    out = 10 * out + static_cast<std::size_t>(c - '0');
  }
  return out;
}

} // namespace norma::text
