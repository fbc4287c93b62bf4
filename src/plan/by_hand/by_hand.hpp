// Positions as a person says them: where on a clock, how many thumb's breadths above, half way up,
// until the mirror shows it. The numbers themselves stay in facts and acts.
#pragma once

#include <memory>
#include <optional>

#include "plan/plan.hpp"

namespace norma::plan {

/// How a view stands where what is said is rounder than what was planned.
enum class Room {
  enough,    // it holds all it promises there, and a careful hand's slip on either side of it
  little,    // it does not
  not_known, // nobody can say: it was not looked at, or fails as planned
};

/// Says the acts of one view. What is rounded is as round as the view's margins allow: it is judged
/// where it would stand then, and said to have little room where no roundness holds.
class ByHand {
 public:
  explicit ByHand(const ViewPlan& view);
  ByHand(ByHand&&) noexcept;
  ~ByHand();

  struct Told {
    Act act;
    Room room = Room::enough; // the least of all that was rounded in it
    bool other = false;       // it is said otherwise than as planned
  };
  /// The act as a person would say it; as it is where nothing in it needs a number.
  [[nodiscard]] Told told(const Act& act) const;

 private:
  class Judged;
  const ViewPlan& view_;
  mutable std::unique_ptr<const Judged> judged_; // once something is to be rounded
};

/// A time by the quarter hour, `clockwise` past 6 o'clock.
diag::Said clock_said(Angle clockwise);

/// An act that several views have in the same way: as it is said where there is the least room.
Act told_for_all(const std::vector<const ViewPlan*>& views, const Act& act);

namespace by_hand {
#define NORMA_BY_HAND(name, arguments)                                                             \
  inline constexpr diag::Sentence<arguments> name{"by_hand." #name};
#include "plan/by_hand/by_hand.def"
#undef NORMA_BY_HAND
} // namespace by_hand

} // namespace norma::plan
