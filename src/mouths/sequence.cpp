#include "mouths/sequence.hpp"

#include <cmath>
#include <numbers>

namespace norma::mouths {
namespace {

// 2^64 g^-j, cut off; g = 1.057050575221228..., the root of g^13 = g + 1.
constexpr std::array<std::uint64_t, Sequence::dimensions> steps{
    0xf22eecf611d9436e, 0xe51cc09b3d83caff, 0xd8bf2d5017352ff9, 0xcd0c73d06eec786b,
    0xc1fb5b846b56c221, 0xb7832b3bccb1a38a, 0xad9ba24d9cf0d513, 0xa43cf216e1960c64,
    0x9b5fb7d32e8d899f, 0x92fcf6ca403ab5a5, 0x8b0e12ce05e62f5b, 0x838ccb04c5269a59};

} // namespace

std::uint64_t scrambled(std::uint64_t z) {
  z += 0x9e3779b97f4a7c15;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
  z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
  return z ^ (z >> 31);
}

Sequence::Sequence(std::uint64_t seed) {
  for (std::size_t j = 0; j < dimensions; ++j)
    shift_[j] = scrambled(scrambled(seed) + j);
}

Sequence::At Sequence::at(std::uint64_t index) const {
  At out;
  for (std::size_t j = 0; j < dimensions; ++j) {
    const std::uint64_t whole = shift_[j] + (index + 1) * steps[j]; // wraps round at 2^64
    out[j] = (static_cast<double>(whole >> 12) + 0.5) * 0x1p-52;
  }
  return out;
}

double normal_deviate(double share) {
  const double tail = share < 0.5 ? share : 1.0 - share;
  const double t = std::sqrt(-2.0 * std::log(tail));
  double x = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
                     (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  for (int step = 0; step < 3; ++step) {
    const double above = 0.5 * std::erfc(x / std::numbers::sqrt2);
    const double density = std::exp(-0.5 * x * x) / std::sqrt(2.0 * std::numbers::pi);
    x += (above - tail) / density;
  }
  return share < 0.5 ? -x : x;
}

} // namespace norma::mouths
