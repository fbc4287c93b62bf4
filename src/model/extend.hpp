// A protocol laid on the one it builds on: changes, drops, what the base keeps fixed.
#pragma once

#include "diag/diagnostic.hpp"
#include "model/declared.hpp"

namespace norma::model {

/// `own` with all that it takes over from `base`; what cannot be is a finding.
Declared extended(const Declared& base, Declared own, diag::Findings& findings);

} // namespace norma::model
