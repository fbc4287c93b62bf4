// Findings as the services that run checks on a repository read them. They are told in English.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "report/report.hpp"

namespace norma::emit {

struct Told;

/// A file's path from the folder of the repository, where it lies in one (the nearest folder that
/// holds `.git`); else as it was typed. Hosts find files by it.
std::string path_in_repository(const report::Report& report, text::FileId file);
/// The file that a finding is shown in: where it points, else the protocol's or the kit's that it
/// is about; none where it is about no file.
text::FileId file_of(const report::Report& report, const Told& told);
/// What it is about, and what is found.
std::string told_text(const report::Report& report, const Told& told);
/// `whether ... (missing: ...)`.
std::string open_text(const report::NotChecked& question);

/// Workflow commands, one a line: `::error file=,line=,endLine=,col=,endColumn=,title=::message`,
/// the graver ones first; at most ten errors, ten warnings and ten notices, as a step shows no
/// more. What was not checked is one notice. The last line counts what is left; it holds no text of
/// a file.
std::string findings_github(const report::Report& report);
/// A message, and the value of one of its properties, as they stand in a workflow command.
std::string command_data(std::string_view plain);
std::string command_property(std::string_view plain);

/// A code quality report: a JSON array. Accepted findings are left out, and what stands in no file.
std::string findings_gitlab(const report::Report& report);

/// Test results in XML: a suite for each protocol, group of patients and kit; a case for each view
/// and series, and one for the protocol with all that its files say. A finding from `fails` on is a
/// failure (none: nothing is), others stand in the output of the case; what was not checked, and
/// has not failed, is skipped.
std::string findings_junit(const report::Report& report, std::optional<diag::Severity> fails);
/// `plain` as the text of an element, or the value of an attribute in double quotes. What could act
/// on a terminal is written out (text::printable), and with it all that XML 1.0 forbids
/// (section 2.2, production Char, https://www.w3.org/TR/xml/#charsets) but U+FFFE and U+FFFF: those
/// go. A new line stays one, as &#10;.
std::string xml_escaped(std::string_view plain);

} // namespace norma::emit
