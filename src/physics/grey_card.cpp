#include "physics/grey_card.hpp"

#include <algorithm>
#include <cmath>

#include "physics/defaults.hpp"

namespace norma::physics {
namespace {

constexpr double normal_mad = 1.4826; // a normal deviate's standard deviation over its MAD

bool is_clipped(double value) {
  const double of_255 = value * 255.0;
  // Written so that what is no number is clipped, too.
  return !(of_255 > defaults::clipped_dark.value && of_255 < defaults::clipped_bright.value);
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

struct Loss {
  std::size_t pair;
  double stops;
};

/// Takes the outliers out of `losses` and gives their places.
std::vector<std::size_t> take_outliers(std::vector<Loss>& losses) {
  if (losses.size() < static_cast<std::size_t>(defaults::outlier_pairs.value)) return {};
  std::vector<double> values;
  for (const Loss& l : losses)
    values.push_back(l.stops);
  const double middle = median(values);
  for (double& v : values)
    v = std::abs(v - middle);
  const double spread = std::max(normal_mad * median(values), defaults::outlier_spread.value);
  const auto first = std::stable_partition(losses.begin(), losses.end(), [&](const Loss& l) {
    return std::abs(l.stops - middle) <= defaults::outlier_limit.value * spread;
  });
  std::vector<std::size_t> out;
  for (auto l = first; l != losses.end(); ++l)
    out.push_back(l->pair);
  losses.erase(first, losses.end());
  return out;
}

} // namespace

double linear_light(double srgb) {
  return srgb <= 0.04045 ? srgb / 12.92 : std::pow((srgb + 0.055) / 1.055, 2.4);
}

GreyCardLoss loss_by_grey_card(std::span<const GreyPair> pairs) {
  GreyCardLoss out;
  std::vector<Loss> losses;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (is_clipped(pairs[i].direct) || is_clipped(pairs[i].mirror)) {
      out.clipped.push_back(i);
    } else {
      losses.push_back(
          {i, std::log2(linear_light(pairs[i].direct) / linear_light(pairs[i].mirror))});
    }
  }
  out.outliers = take_outliers(losses);
  out.used = losses.size();
  if (losses.empty()) return out;
  const double count = static_cast<double>(losses.size());
  double sum = 0;
  for (const Loss& l : losses)
    sum += l.stops;
  const double mean = sum / count;
  double squares = 0;
  for (const Loss& l : losses)
    squares += (l.stops - mean) * (l.stops - mean);
  out.mean = mean * stop;
  if (losses.size() > 1) out.standard_error = std::sqrt(squares / (count - 1.0) / count) * stop;
  return out;
}

} // namespace norma::physics
