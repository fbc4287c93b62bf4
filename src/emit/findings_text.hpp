// Findings for people: place, message, the line with the place marked, notes, help.
#pragma once

#include <string>

#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// All findings as text, each ending with a blank line. Nothing in it can act on a terminal.
std::string findings_text(const report::Report& report, const wording::Language& in);

/// One line for each finding: place, severity, code, name, views, kit, message, parted as in
/// `a.norma:3:5: warning: P019 tooth_hidden: view right with chair_3: ...`.
std::string findings_lines(const report::Report& report, const wording::Language& in);

} // namespace norma::emit
