// Points that fill a cube evenly, the same on every machine and for every number of threads.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace norma::mouths {

/// An additive recurrence: point n is n times a vector of irrational steps, shifted by the seed and
/// wrapped round at 1. The steps are the powers of 1/g, g the positive root of
/// g^(d + 1) = g + 1 (d = `dimensions`; at d = 1 the golden ratio). Kept in whole numbers of 2^-64:
/// no rounding hangs on the machine. Source: M. Roberts, The unreasonable effectiveness of
/// quasirandom sequences, 2018 (from memory).
class Sequence {
 public:
  static constexpr std::size_t dimensions = 12;
  using At = std::array<double, dimensions>;

  explicit Sequence(std::uint64_t seed);
  /// Each coordinate lies between 0 and 1, and is neither.
  [[nodiscard]] At at(std::uint64_t index) const;

 private:
  std::array<std::uint64_t, dimensions> shift_;
};

/// SplitMix64: a number that shows nothing of the one it is made from. Source: Steele, Lea, Flood,
/// Fast splittable pseudorandom number generators, OOPSLA 2014 (from memory).
std::uint64_t scrambled(std::uint64_t z);

/// The normal deviate below which a share of all lies; `share` is between 0 and 1. Within 1e-9:
/// Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.23, made better by Newton's
/// method on the error function.
double normal_deviate(double share);

} // namespace norma::mouths
