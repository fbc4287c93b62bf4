// Which open questions of a view leave open whether a finding comes up.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "plan/plan.hpp"

namespace norma::rules {

/// A finding that nobody can tell while a question is open.
struct Unsettled {
  std::string_view finding;
  std::string_view question;
};
std::span<const Unsettled> unsettled_table();

/// The datum for want of which it is not known whether `finding` comes up in this view; "" where it
/// is known.
std::string missing_for(std::string_view finding, const plan::ViewPlan& view);

} // namespace norma::rules
