// Findings as the services that run checks on a repository read them.
#pragma once

#include <string>
#include <string_view>

#include "report/report.hpp"

namespace norma::emit {

/// Workflow commands, one a line: `::error file=,line=,endLine=,col=,endColumn=,title=::message`, the
/// graver ones first; at most ten errors, ten warnings and ten notices, as a step shows no more. The
/// last line counts the rest; it holds no text of a file.
std::string findings_github(const report::Report& report);
/// A message, and the value of one of its properties, as they stand in a workflow command.
std::string command_data(std::string_view plain);
std::string command_property(std::string_view plain);

/// A code quality report: a JSON array. Accepted findings are left out, and what stands in no file.
std::string findings_gitlab(const report::Report& report);

/// Test results in XML: a suite for each protocol, group of patients and kit; a case for each view,
/// and series, and one for the protocol with all that its files say. A finding from `fails` on is a
/// failure, others stand in the output of the case; what was not checked, and has not failed, is
/// skipped.
std::string findings_junit(const report::Report& report, diag::Severity fails);

} // namespace norma::emit
