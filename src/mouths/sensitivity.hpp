// On what of its inputs a result hangs, by variance.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "mouths/sequence.hpp"

namespace norma::mouths {

/// Shares of the variance of a result that come of one input: alone (first order), and with all it
/// does together with others (total); each with one standard error.
struct Sensitivity {
  double alone = 0;
  double alone_error = 0;
  double total = 0;
  double total_error = 0;
};

/// A result for a point of the unit cube; asked by several threads.
using Result = std::function<double(const Sequence::At&)>;

/// Of the first `inputs` coordinates, from `count` points in each of `repeats` sequences, count x
/// repeats x (inputs + 2) calls. First order by Saltelli et al., total by Jansen (Saltelli et al.,
/// Comput Phys Commun 2010;181:259-270, table 2 (b) and (f)); the error from the spread of the
/// repeats. Where the result is the same everywhere, all are 0.
std::vector<Sensitivity> sensitivity_of(const Result& result, std::size_t inputs, std::size_t count,
                                        std::uint64_t seed, std::size_t repeats = 8,
                                        unsigned threads = 1);

} // namespace norma::mouths
