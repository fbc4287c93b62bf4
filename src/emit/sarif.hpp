// Findings as SARIF 2.1.0 (OASIS standard, 2020), for code hosts and editors.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "project/known.hpp"
#include "report/report.hpp"

namespace norma::emit {

/// The page of docs/diagnostics on a code; "" for none.
using PageOf = std::function<std::string_view(std::string_view)>;

/// What was not checked is a notification of the run; an accepted finding is a suppressed result.
/// Files are named from the repository's folder (hosts.hpp).
/// With `baseline` each result has its state against it (section 3.27.24, baselineState), and what
/// is gone is a result that is absent.
std::string findings_sarif(const report::Report& report, const PageOf& page_of,
                           const project::HeldAgainst* baseline = nullptr);

} // namespace norma::emit
