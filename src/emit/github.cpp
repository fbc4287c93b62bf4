// The published form: "Workflow commands for GitHub Actions", setting a notice, warning or error
// message (https://docs.github.com/en/actions/reference/workflows-and-actions/workflow-commands);
// what writes them, escapeData and escapeProperty of packages/core/src/command.ts
// (https://github.com/actions/toolkit); and what reads them, src/Runner.Worker/ExecutionContext.cs
// (https://github.com/actions/runner): ten of a kind for each step, 4096 characters a message.
#include <fmt/core.h>

#include <string>
#include <vector>

#include "emit/hosts.hpp"
#include "emit/not_checked.hpp"
#include "emit/told.hpp"
#include "text/utf8.hpp"
#include "wording/wording.hpp"

namespace norma::emit {
namespace {

constexpr std::size_t most_of_a_kind = 10;
constexpr std::size_t longest_message = 4096; // in bytes; characters are never more

std::string without_signs(std::string_view plain, std::string_view signs) {
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

/// Cut between two characters.
std::string_view cut_to_fit(std::string_view message) {
  if (message.size() <= longest_message) return message;
  std::size_t end = longest_message;
  while (end > 0 && (static_cast<unsigned char>(message[end]) & 0xc0u) == 0x80u)
    --end;
  return message.substr(0, end);
}

std::string command(const Told& told, const report::Report& report) {
  const diag::Diagnostic& d = *told.finding;
  std::string out = fmt::format("::{} ", command_of(d.severity));
  if (const text::FileId file = file_of(report, told); file != text::FileId::none)
    out += fmt::format("file={},", command_property(path_in_repository(report, file)));
  if (d.span.known()) {
    const text::Source& source = report.sources[d.span.file];
    const text::Place begin = source.place(d.span.begin);
    const text::Place end = source.place(d.span.end);
    out += fmt::format("line={},endLine={},", begin.line, end.line);
    // Columns are read within one line only.
    if (begin.line == end.line)
      out += fmt::format("col={},endColumn={},", begin.column, end.column);
  }
  std::string message = told_text(report, told);
  for (const diag::Said& help : d.help)
    message += "\nhelp: " + wording::english().text(help);
  const std::string title = fmt::format("{} {}", d.definition->code, d.definition->name);
  return out + fmt::format("title={}::{}\n", command_property(title), command_data(message));
}

/// What was not checked: one notice, since more of them would be the only ones that are shown.
std::string not_checked_command(const report::Report& report) {
  std::vector<const report::NotChecked*> asked;
  for (const report::NotChecked& n : report.not_checked)
    asked.push_back(&n);
  std::string all;
  for (const std::string& line : not_checked_lines(report, asked, Naming::all, wording::english()))
    all += (all.empty() ? "" : "\n") + line;
  return all.empty() ? all : fmt::format("::notice title=not checked::{}\n", command_data(all));
}

} // namespace

std::string command_data(std::string_view plain) {
  const std::string printable = text::printable(plain, true);
  return without_signs(cut_to_fit(printable), "%\r\n");
}
std::string command_property(std::string_view plain) {
  return without_signs(text::printable(plain, true), "%\r\n:,");
}

std::string findings_github(const report::Report& report) {
  const AllTold told = told_apart(report);
  std::string out;
  std::string more;
  for (const diag::Severity severity :
       {diag::Severity::error, diag::Severity::warning, diag::Severity::advice}) {
    std::size_t room = most_of_a_kind;
    std::size_t shown = 0;
    if (severity == diag::Severity::advice && !report.not_checked.empty()) {
      out += not_checked_command(report);
      --room;
    }
    for (const Told& one : told.list) {
      if (one.finding->severity != severity || !one.finding->accepted.empty()) continue;
      if (shown == room) break;
      ++shown;
      out += command(one, report);
    }
    const std::size_t left = told.count(severity) - shown;
    if (left > 0)
      more +=
          fmt::format("{}{} more of level {}", more.empty() ? "" : ", ", left, to_text(severity));
  }
  const std::string known = told.known == 0 ? "" : fmt::format("{} known, ", told.known);
  return out + fmt::format("{}{}{}{} accepted, {} not checked.\n", more, more.empty() ? "" : "; ",
                           known, told.accepted, report.not_checked.size());
}

} // namespace norma::emit
