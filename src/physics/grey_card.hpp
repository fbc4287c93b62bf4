// What a mirror costs in light, measured: a grey card is photographed directly and in the mirror,
// all else alike.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "physics/quantity.hpp"

namespace norma::physics {

/// Linear light of an sRGB value, both 0 to 1. Source: IEC 61966-2-1.
double linear_light(double srgb);

/// One card, shot directly and in the mirror: mean sRGB values of the card, 0 to 1 (118/255).
struct GreyPair {
  double direct;
  double mirror;
};

/// Result of a series of pairs. Pairs are named by their place in the series, from 0.
struct GreyCardLoss {
  std::size_t used = 0;              // pairs that the mean rests on
  Stops mean;                        // 0 where none was used
  Stops standard_error;              // of the mean; 0 where fewer than two were used
  std::vector<std::size_t> clipped;  // a value too near black or white: left out
  std::vector<std::size_t> outliers; // far from the others: left out
};

/// log2(direct / mirror) in linear light of each pair. A pair is clipped where a value lies at or
/// beyond the limits (an average over a card that is partly clipped lies a little inside of 0 and
/// 1). An outlier lies more than 3.5 robust standard deviations (1.4826 times the median absolute
/// deviation, at least 0.03 stop) from the median; with fewer than four pairs none is called so.
/// Sources and assumed values: defaults.hpp.
GreyCardLoss loss_by_grey_card(std::span<const GreyPair> pairs);

} // namespace norma::physics
