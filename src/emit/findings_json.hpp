// Findings for machines: JSON of our own (docs/schema).
#pragma once

#include <string>
#include <vector>

#include "report/report.hpp"

namespace norma::emit {

/// For each finding, in order, 16 hexadecimal digits that stay the same while what it speaks of
/// does: code, kit, views, file and the words it stands at; not the line, not the numbers.
std::vector<std::string> stable_ids(const report::Report& report);

/// A JSON object {"findings": [...], "not_checked": [...], "counts": {...}}, indented by two, with
/// a new line at the end. Bytes that are not UTF-8 become U+FFFD.
std::string findings_json(const report::Report& report);

} // namespace norma::emit
