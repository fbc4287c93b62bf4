// What wears off, or has to be measured again: how long ago it was done, and whether it still
// holds.
#pragma once

#include <optional>

#include "kit/kit.hpp"

namespace norma::kit {

/// Since when something holds.
struct Age {
  enum class Since {
    nobody_said,
    unreadable, // reported where it stands
    ahead,      // the day that is given has not come yet: it settles nothing
    day,
  };
  Since since;
  int months; // whole ones that have passed since that day; 0 where none is known

  /// `good_for` in months: on the day on which so many have passed it is due.
  [[nodiscard]] bool due(int good_for) const { return since == Since::day && months >= good_for; }
};

Age age_of(const Sourced<words::Date>& day, words::Date on);

/// Sterilising cycles, counted.
struct Cycles {
  int passed;
  int last_for;
  [[nodiscard]] bool due() const { return passed >= last_for; }
};

/// Cycles count where they are counted; else the months do.
struct Frosting {
  std::optional<Cycles> cycles;
  Age age;
  [[nodiscard]] bool due(int good_for) const { return cycles ? cycles->due() : age.due(good_for); }
};

/// Nothing where the retractor is not of frosted metal.
std::optional<Frosting> frosting_of(const Retractor& retractor, words::Date on);

/// Nothing where no loss is given, by whichever way: a day alone was no measurement.
std::optional<Age> loss_age_of(const Mirror& mirror, words::Date on);

} // namespace norma::kit
