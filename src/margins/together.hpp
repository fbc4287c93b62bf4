// How many shots hold when all is off at once, each thing by its own spread.
#pragma once

#include <array>
#include <cstdint>

#include "margins/promise.hpp"

namespace norma::margins {

/// One standard deviation of each error, normal about 0: degrees or millimetres, by its row.
using Spreads = std::array<double, errors>;

/// norma's own; a tolerance in which 95 of 100 shots lie is two of them.
const physics::Default& spread_row(Error what);
inline constexpr double deviations_in_a_tolerance = 2;

struct Together {
  std::size_t shots = 0;
  std::size_t hold = 0;
  double error = 0;                          // one standard error of the share that holds
  std::array<std::size_t, promises> first{}; // shots in which it is the first that is broken

  [[nodiscard]] double share() const {
    return shots == 0 ? 0 : static_cast<double>(hold) / static_cast<double>(shots);
  }
};
inline constexpr std::size_t most_shots = 100'000;
/// Shots by the sequence of many mouths, one coordinate for each error; looked at with the usual
/// pieces. A mirror that would meet teeth or gum is stopped there, and does not break the shot. The
/// same for every number of threads.
Together together(const Standing& planned, const Spreads& spreads, std::size_t shots,
                  std::uint64_t seed, unsigned threads = 1);

} // namespace norma::margins
