// Findings as SARIF 2.1.0 (OASIS standard, 2020), for code hosts and editors.
#pragma once

#include <string>

#include "report/report.hpp"

namespace norma::emit {

/// What was not checked is a result of kind `open`; an accepted finding is a suppressed one.
std::string findings_sarif(const report::Report& report);

} // namespace norma::emit
