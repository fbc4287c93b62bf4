// Plans for machines.
#pragma once

#include <string>
#include <vector>

#include "plan/plan.hpp"

namespace norma::emit {

/// One JSON document for the plans of a run, indented by two, a new line at its end. Every fact has
/// its id, state, printed form, number with unit, status, source and inputs.
std::string plan_json(const std::vector<const plan::Plan*>& plans);

/// The facts of one view as JSON.
std::string view_json(const plan::ViewPlan& view);

} // namespace norma::emit
