// Findings for machines.
#pragma once

#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "diag/not_checked.hpp"
#include "text/source.hpp"

namespace norma::diag {

/// A JSON object {"findings": [...], "not_checked": [...], "counts": {...}}, indented by two, with
/// a new line at the end. Bytes that are not UTF-8 become U+FFFD.
std::string render_json(const Findings& findings, const std::vector<NotChecked>& not_checked,
                        const text::Sources& sources);

} // namespace norma::diag
