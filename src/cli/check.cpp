#include <fmt/core.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/sarif.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

/// The last line: what was looked at, and what came of it.
std::string summary(const report::Report& report) {
  const diag::Findings& f = report.findings;
  std::size_t views = 0;
  for (const report::Held& h : report.held)
    views += h.protocol->views.size();
  std::string what = counted(report.files.size(), "protocol", "protocols");
  if (!report.kits.empty()) what += ", " + counted(report.kits.size(), "kit", "kits");
  what += ", " + counted(views, "view", "views");
  const std::string accepted = f.accepted() == 0 ? "" : fmt::format("; {} accepted", f.accepted());
  return fmt::format(
      "{} checked: {}, {}, {}{}.\n", what,
      counted(f.count(diag::Severity::error), "error", "errors"),
      counted(f.count(diag::Severity::warning), "warning", "warnings"),
      counted(f.count(diag::Severity::advice), "piece of advice", "pieces of advice"), accepted);
}

} // namespace

Outcome check(const Options& options) {
  session::Session session;
  if (auto failed = run_session(session, options, Wanted::findings)) return *failed;
  const report::Report& report = session.report();
  Outcome outcome;
  outcome.code = code_for(report.findings, options);
  if (options.format == Format::json) {
    outcome.out = emit::findings_json(report);
    return outcome;
  }
  if (options.format == Format::sarif) {
    outcome.out = emit::findings_sarif(report);
    return outcome;
  }
  const std::string open = not_checked_text(report);
  if (options.format == Format::lines) {
    outcome.out = emit::findings_lines(report) + open + summary(report);
    return outcome;
  }
  outcome.out = emit::findings_text(report);
  if (!open.empty()) outcome.out += open + "\n";
  outcome.out += summary(report);
  return outcome;
}

} // namespace norma::cli
