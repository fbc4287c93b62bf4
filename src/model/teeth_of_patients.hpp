// Teeth that a protocol names, against those that its patients have.
#pragma once

#include "diag/diagnostic.hpp"
#include "model/protocol.hpp"

namespace norma::model {

/// Teeth that the patients do not have, or only now and then.
void check_teeth_of_patients(const Protocol& protocol, diag::Findings& findings);

} // namespace norma::model
