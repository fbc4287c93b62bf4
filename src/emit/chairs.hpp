// A protocol held against several chairs: which view can be had where, and the least that would
// mend what cannot.
#pragma once

#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "plan/plan.hpp"

namespace norma::emit {

/// A table of views by kits for the plans of one protocol (one group), then for each kit what
/// stands against it and the first remedy. `findings` are those of the run.
std::string chairs(const std::vector<const plan::Plan*>& plans, const diag::Findings& findings);

} // namespace norma::emit
