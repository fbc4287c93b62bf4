// The session as a walk: how everything stands before and after each view, and so what changes
// from one to the next. Values only; the words of the acts stand in src/wording.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "plan/plan.hpp"

namespace norma::plan {

enum class Part {
#define NORMA_PART(name) name,
#include "plan/walk/parts.def"
#undef NORMA_PART
  count
};

/// How one part stands.
struct Thing {
  diag::Value what;                  // piece, pose, place or value; empty: nothing is said of it
  std::vector<diag::Said> how;       // pull, angle, who holds it
  std::optional<model::Jaw> jaw{};   // that a mirror is for
  std::optional<model::Side> side{}; // that it is on
  bool there = false;                // something that must come out, or away, again
  [[nodiscard]] bool unsaid() const { return what.empty(); }
  friend bool operator==(const Thing&, const Thing&) = default;
};

/// Do fingers hold it, and no instrument?
bool by_fingers(const Thing& thing);

/// How everything stands at one moment of a session.
class Moment {
 public:
  [[nodiscard]] const Thing& operator[](Part part) const {
    return things_[static_cast<std::size_t>(part)];
  }
  Thing& operator[](Part part) { return things_[static_cast<std::size_t>(part)]; }
  friend bool operator==(const Moment&, const Moment&) = default;

 private:
  std::array<Thing, static_cast<std::size_t>(Part::count)> things_;
};

/// One view of a session.
struct Step {
  const ViewPlan* view = nullptr;
  Moment taken; // when the picture is taken
  Moment after; // once what comes out first is out
  /// What is done: what must come out, what changes, and what each view asks for anew.
  std::vector<Act> acts;
  std::vector<Act> stays; // what it asks for and has already
  std::vector<Part> set;  // settings that are others than before
  int insertions = 0;     // pieces that go into the mouth, or into another place in it
};

/// Does it change how something stands? What is said, looked at and noted does not.
bool changes(const Act& act);
/// What a view says of each part; what it does not say is empty.
Moment said_of(const ViewPlan& view);
/// The view, taken when everything stands as in `before`.
Step take(const Plan& plan, const Moment& before, const ViewPlan& view);
/// One after the other, from an empty mouth. A view that is not taken is left out by the caller.
std::vector<Step> walk(const Plan& plan, const std::vector<const ViewPlan*>& views);
/// What is done when the last picture is taken: all that is there comes out.
std::vector<Act> clear(const Plan& plan, const Moment& last);

} // namespace norma::plan
