// Why not, and in how many of a hundred.
#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include "emit/frame_words.hpp"
#include "facts/fact.hpp"
#include "mouths/shares.hpp"

namespace norma::emit {

/// Promises by how often each is the first that is broken, of `whole`; those that never are are
/// left out.
template <class Promise, std::size_t N>
diag::List reasons(const std::array<std::size_t, N>& first, std::size_t whole) {
  std::vector<std::size_t> order;
  for (std::size_t p = 0; p < N; ++p) {
    if (first[p] > 0) order.push_back(p);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return first[a] > first[b]; });
  diag::List out;
  for (const std::size_t p : order)
    out.items.emplace_back(frame::mouths_of_hundred(facts::term_of(static_cast<Promise>(p)),
                                                    mouths::of_hundred(first[p], whole)));
  return out;
}

} // namespace norma::emit
