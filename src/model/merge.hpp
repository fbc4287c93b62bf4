// Merging: what is said later and closer replaces what is inherited, word by word (for a keyed
// word, key by key); `also` adds, `no` removes; what is not mentioned stays.
#pragma once

#include <vector>

#include "diag/diagnostic.hpp"
#include "model/statement.hpp"

namespace norma::model {

/// The statements of one block made ready for merging: a word said twice is a finding, and
/// `retractor both` becomes one statement for each side (beside one for a single side it is a
/// finding).
std::vector<Statement> settle_block(std::vector<Statement> said, diag::Findings& findings);

/// `base` with what `over` mentions replaced, added or removed. `also` and `no` that meet nothing
/// in `base` are kept: what they speak of may come from a layer below.
std::vector<Statement> merged(const std::vector<Statement>& base,
                              const std::vector<Statement>& over);

/// The last layer is laid: `no` is taken out, `also` stands for itself; each that met nothing is a
/// finding.
std::vector<Statement> finished(std::vector<Statement> statements, diag::Findings& findings);

} // namespace norma::model
