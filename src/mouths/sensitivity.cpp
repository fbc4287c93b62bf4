#include "mouths/sensitivity.hpp"

#include <cmath>
#include <numeric>
#include <utility>

#include "mouths/turns.hpp"

namespace norma::mouths {
namespace {

/// Mean and its standard error.
struct Mean {
  double mean = 0;
  double error = 0;
};
Mean mean_of(std::span<const double> values) {
  Mean out;
  const auto n = static_cast<double>(values.size());
  if (values.empty()) return out;
  for (const double v : values)
    out.mean += v / n;
  if (values.size() < 2) return out;
  double sum = 0;
  for (const double v : values)
    sum += (v - out.mean) * (v - out.mean);
  out.error = std::sqrt(sum / (n - 1) / n);
  return out;
}

/// The numbers below `count`, shuffled (Fisher and Yates): a sequence that is gone through in
/// another order hangs together with itself no more.
std::vector<std::size_t> shuffled(std::size_t count, std::uint64_t seed) {
  std::vector<std::size_t> out(count);
  std::iota(out.begin(), out.end(), std::size_t{0});
  for (std::size_t i = count; i > 1; --i)
    std::swap(out[i - 1], out[scrambled(scrambled(seed) + i) % i]);
  return out;
}

} // namespace

std::vector<Sensitivity> sensitivity_of(const Result& result, std::size_t inputs, std::size_t count,
                                        std::uint64_t seed, std::size_t repeats, unsigned threads) {
  std::vector<std::vector<double>> alone(inputs);
  std::vector<std::vector<double>> total(inputs);
  for (std::size_t repeat = 0; repeat < repeats; ++repeat) {
    // Two sets of points. Two sequences differ by a shift alone: the second in another order.
    const Sequence first(seed + 2 * repeat);
    const Sequence other(seed + 2 * repeat + 1);
    const auto order = shuffled(count, seed + repeat);
    const auto second = [&](std::size_t i) { return other.at(order[i]); };
    std::vector<double> of_first(count);
    std::vector<double> of_second(count);
    // By input and point: the first set with this input of the second.
    std::vector<double> mixed(inputs * count);
    in_turns((inputs + 2) * count, threads, [&](std::size_t at) {
      const std::size_t i = at % count;
      const std::size_t which = at / count;
      if (which == inputs) {
        of_first[i] = result(first.at(i));
      } else if (which == inputs + 1) {
        of_second[i] = result(second(i));
      } else {
        Sequence::At point = first.at(i);
        point[which] = second(i)[which];
        mixed[at] = result(point);
      }
    });
    double sum = 0;
    double squares = 0;
    for (std::size_t i = 0; i < count; ++i) {
      sum += of_first[i] + of_second[i];
      squares += of_first[i] * of_first[i] + of_second[i] * of_second[i];
    }
    const auto both = 2.0 * static_cast<double>(count);
    const double variance = squares / both - (sum / both) * (sum / both);
    for (std::size_t input = 0; input < inputs; ++input) {
      double product = 0;
      double difference = 0;
      for (std::size_t i = 0; i < count; ++i) {
        const double here = mixed[input * count + i];
        product += of_second[i] * (here - of_first[i]);
        difference += (of_first[i] - here) * (of_first[i] - here);
      }
      const auto n = static_cast<double>(count);
      const bool flat = !(variance > 0);
      alone[input].push_back(flat ? 0.0 : product / n / variance);
      total[input].push_back(flat ? 0.0 : 0.5 * difference / n / variance);
    }
  }
  std::vector<Sensitivity> out;
  for (std::size_t input = 0; input < inputs; ++input) {
    const Mean a = mean_of(alone[input]);
    const Mean t = mean_of(total[input]);
    out.push_back({a.mean, a.error, t.mean, t.error});
  }
  return out;
}

} // namespace norma::mouths
