// In how many mouths a view holds what it promises.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "mouths/draw.hpp"
#include "mouths/sensitivity.hpp"
#include "placing/outcome.hpp"

namespace norma::mouths {

/// What a view promises, in the order in which a reason is looked for: the first that is broken is
/// the one that is told.
enum class Promise {
  placed, // the mouth opens so far, and the mirror has a place
  fits,   // the mirror has room between the jaws and the corners of the mouth
  framed,
  turned, // no surface is turned away
  seen,
  sharp,
  lit
};
inline constexpr std::size_t promises = 7;

/// Of one surface.
struct SurfaceShare {
  physics::Wanted which;
  std::size_t framed = 0;
  std::size_t seen = 0;
  std::size_t lit = 0;
  std::size_t all = 0; // framed, seen and lit
  /// In the worst twentieth of the mouths no more of it than this is seen.
  double worst_twentieth = 0;
};

/// How a view fares in one mouth: nothing where it holds all, else the first promise broken.
using Fate = std::optional<Promise>;

struct Shares {
  std::size_t mouths = 0;
  std::size_t hold = 0;
  double error = 0; // one standard error of the share that holds, by the spread of eight parts
  std::array<std::size_t, promises> first{};  // mouths in which it is the first that is broken
  std::array<std::size_t, promises> broken{}; // in which it is broken at all
  std::vector<SurfaceShare> surfaces;         // of what must show, in its order
  std::vector<Fate> fates;                    // of each mouth

  [[nodiscard]] double share() const {
    return mouths == 0 ? 0 : static_cast<double>(hold) / static_cast<double>(mouths);
  }
};

/// What a view's fate hangs on: its share of what makes the fates unlike.
struct Hangs {
  Varies what;
  Sensitivity by;
};
/// Each thing that varies in the group, the one with the largest total first; `count` points in
/// each of four repeats.
std::vector<Hangs> hangs_on(const placing::Setting& setting, const Group& group, bool opens_wide,
                            std::size_t count, std::uint64_t seed, unsigned threads = 1);

/// One standard error of the share of them that hold (not 0), by how it differs between eight parts
/// of the sequence, each of which covers the cube by itself; 0 where they are too few.
double error_of_share(const std::vector<char>& holds);

/// One mouth's result, to be counted.
struct OneMouth {
  Fate fate;
  std::array<bool, promises> broken{};
  std::vector<placing::Shown> shown; // empty where it is not placed
};
OneMouth look_into(const placing::Setting& setting, const Drawn& mouth, bool opens_wide);

/// The same for every number of threads.
Shares shares_of(const placing::Setting& setting, const Mouths& mouths, bool opens_wide,
                 unsigned threads = 1);

} // namespace norma::mouths
