// Findings for machines: JSON of our own (docs/schema).
#pragma once

#include <string>

#include "project/known.hpp"
#include "report/report.hpp"

namespace norma::emit {

/// Findings told apart (told.hpp), as a JSON object {"findings": [...], "not_checked": [...],
/// "counts": {...}}, indented by two, with a new line at the end. Bytes that are not UTF-8 become
/// U+FFFD. With `baseline`, what is known is left out and counted, and what is gone is told.
std::string findings_json(const report::Report& report,
                          const project::HeldAgainst* baseline = nullptr);

} // namespace norma::emit
