// Merging: what a view says replaces what it takes over, word by word (for a keyed word, key by
// key); what it does not mention stays.
#pragma once

#include <vector>

#include "diag/diagnostic.hpp"
#include "model/statement.hpp"

namespace norma::model {

/// The statements of one block made ready for merging: a word said twice is a finding, and
/// `retractor both` becomes one statement for each side (beside one for a single side it is a
/// finding).
std::vector<Statement> settle_block(std::vector<Statement> said, diag::Findings& findings);

/// `base` with all that `over` mentions replaced by what it says.
std::vector<Statement> merged(const std::vector<Statement>& base,
                              const std::vector<Statement>& over);

} // namespace norma::model
