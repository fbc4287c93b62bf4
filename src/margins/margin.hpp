// How far each thing may be off, alone, before a view breaks its first promise.
#pragma once

#include <optional>
#include <vector>

#include "margins/promise.hpp"

namespace norma::margins {

struct Margin {
  Error what = Error::camera_sideways;
  Way way = Way::more;
  /// All is held up to here (degrees or millimetres): to a 30th of itself, or to `finest`.
  double size = 0;
  std::optional<Broken> breaks; // a hair farther; nothing: all is held as far as it was looked
};

struct ViewMargins {
  std::optional<Broken> fails; // as planned: it has no margins then
  std::vector<Margin> margins; // of each error that applies, both ways, in the order of the rows
};

inline constexpr double finest = 0.05;
/// Sizes at which it is looked, each twice the one before, up to the farthest: a break that is
/// mended again before the next of them may be missed.
inline constexpr int doublings = 4;
/// One of them, looked up to `most`. Where the first of these sizes breaks something, the way to it
/// is halved.
Margin margin_of(const Standing& planned, const Judge& judge, Error what, bool more, double most);
/// The margin where the far end of a tolerance breaks something, followed from there; nothing where
/// it does not: a break that is mended again before the end is missed.
std::optional<Margin> margin_within(const Standing& planned, const Judge& judge, Error what,
                                    bool more, double tolerance);

/// How finely a surface is looked at for margins: those of shipped views come within a degree or a
/// millimetre of finer ones. The plan itself is judged as finely as `check` does.
inline constexpr int margin_pieces = 55;
/// Nothing where it breaks something as planned.
std::optional<Judge> judge_for(const Standing& planned);

/// The same for every number of threads.
ViewMargins margins_of(const Standing& planned, unsigned threads = 1);

} // namespace norma::margins
