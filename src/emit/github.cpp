// The published forms: "Workflow commands for GitHub Actions"
// (https://docs.github.com/en/actions/reference/workflows-and-actions/workflow-commands), and what
// writes them in @actions/core, packages/core/src/command.ts (https://github.com/actions/toolkit):
// escapeData and escapeProperty.
#include <fmt/core.h>

#include <algorithm>

#include "emit/annotations.hpp"
#include "emit/told.hpp"
#include "text/utf8.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

/// Annotations of one kind that a step shows; from memory, as no page of the reference says it.
constexpr std::size_t shown_of_a_kind = 10;

std::string without(std::string_view plain, std::string_view signs) {
  std::string out;
  for (const char c : plain) {
    if (signs.find(c) == std::string_view::npos) {
      out += c;
    } else {
      out += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
  }
  return out;
}

std::string_view command_of(diag::Severity s) {
  switch (s) {
  case diag::Severity::error: return "error";
  case diag::Severity::warning: return "warning";
  case diag::Severity::advice: break;
  }
  return "notice";
}

std::string command_line(const Told& told, const report::Report& report) {
  const diag::Diagnostic& d = *told.finding;
  std::string out = fmt::format("::{} ", command_of(d.severity));
  if (d.span.known()) {
    const text::Source& source = report.sources[d.span.file];
    const text::Place begin = source.place(d.span.begin);
    const text::Place end = source.place(d.span.end);
    out += fmt::format("file={},line={},endLine={},", command_property(source.name()), begin.line,
                       end.line);
    // Columns are read within one line only.
    if (begin.line == end.line)
      out += fmt::format("col={},endColumn={},", begin.column, end.column);
  }
  std::string message = about_text(report, told);
  message += (message.empty() ? "" : ": ") + wording::text(d.message);
  for (const diag::Said& help : d.help)
    message += "\nhelp: " + wording::text(help);
  return out + fmt::format("title={}::{}\n",
                           command_property(fmt::format("{} {}", d.definition->code,
                                                        d.definition->name)),
                           command_data(message));
}

} // namespace

std::string command_data(std::string_view plain) {
  return without(text::printable(plain, true), "%\r\n");
}
std::string command_property(std::string_view plain) {
  return without(text::printable(plain, true), "%\r\n:,");
}

std::string findings_github(const report::Report& report) {
  const AllTold told = told_apart(report);
  std::string out;
  std::string more;
  for (const diag::Severity severity :
       {diag::Severity::error, diag::Severity::warning, diag::Severity::advice}) {
    std::size_t shown = 0;
    for (const Told& one : told.list) {
      if (one.finding->severity != severity || !one.finding->accepted.empty()) continue;
      if (shown == shown_of_a_kind) break;
      ++shown;
      out += command_line(one, report);
    }
    const std::size_t left = told.count(severity) - shown;
    if (left > 0)
      more += fmt::format("{}{} more of level {}", more.empty() ? "" : ", ", left,
                          to_text(severity));
  }
  return out + fmt::format("{}{}{} accepted, {} questions not checked.\n", more,
                           more.empty() ? "" : "; ", told.accepted, report.not_checked.size());
}

} // namespace norma::emit
