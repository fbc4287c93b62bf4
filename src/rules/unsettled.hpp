// Which open questions of a view leave open whether a finding comes up.
#pragma once

#include <span>

#include "diag/diagnostic.hpp"
#include "plan/plan.hpp"

namespace norma::rules {

/// A finding that nobody can tell while a question is open.
struct Unsettled {
  const diag::Definition* finding = nullptr;
  const diag::Row* question = nullptr;
};
std::span<const Unsettled> unsettled_table();

/// The datum for want of which it is not known whether `finding` comes up in this view; empty where
/// it is known.
diag::Said missing_for(const diag::Definition& finding, const plan::ViewPlan& view);

} // namespace norma::rules
