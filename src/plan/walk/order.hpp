// What a session asks of patient and team, and whether another order asks less.
#pragma once

#include <vector>

#include "plan/walk/walk.hpp"

namespace norma::plan {

struct Effort {
  int insertions = 0; // pieces that go into the mouth, or into another place in it
  int changes = 0;    // pieces, poses, places and settings that are others than before
  Minutes minutes;    // with something in the mouth
};

/// Of views that are taken one after the other.
Effort effort_of(const Plan& plan, const std::vector<const ViewPlan*>& views);

/// Series that are longer are taken as they are.
inline constexpr std::size_t most_reordered = 24;

/// The same views in an order with fewer insertions, or as many and a tenth fewer changes; empty
/// where none is found. Up to twelve views the best there is; of more, what moving one view at a
/// time finds. What must keep its order does: views before drying come before those of dry teeth,
/// views of the face before those of the mouth where they do (retractors leave their marks on
/// lips), a mirror that is turned over behind one that is in. Nothing is looked for where a view
/// has steps of the protocol's own, or says something of dentures: what they need is not known.
std::vector<const ViewPlan*> better_order(const Plan& plan,
                                          const std::vector<const ViewPlan*>& views);

} // namespace norma::plan
