// Findings for machines: JSON of our own (docs/schema), SARIF, and one line for each.
#pragma once

#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "diag/not_checked.hpp"
#include "text/source.hpp"

namespace norma::diag {

/// For each finding, in order, 16 hexadecimal digits that stay the same while what it speaks of
/// does: code, kit, views, file and the words it stands at; not the line, not the numbers.
std::vector<std::string> stable_ids(const Findings& findings, const text::Sources& sources);

/// A JSON object {"findings": [...], "not_checked": [...], "counts": {...}}, indented by two, with
/// a new line at the end. Bytes that are not UTF-8 become U+FFFD.
std::string render_json(const Findings& findings, const std::vector<NotChecked>& not_checked,
                        const text::Sources& sources);

/// The same as SARIF 2.1.0 (OASIS standard, 2020). What was not checked is a result of kind `open`;
/// an accepted finding is a suppressed one.
std::string render_sarif(const Findings& findings, const std::vector<NotChecked>& not_checked,
                         const text::Sources& sources);

/// One line for each finding: place, severity, code, name, views, kit, message, parted as in
/// `a.norma:3:5: warning: P019 tooth_hidden: view right with chair_3: ...`.
std::string render_lines(const Findings& findings, const text::Sources& sources);

} // namespace norma::diag
