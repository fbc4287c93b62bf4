#include <fmt/core.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "diag/json.hpp"
#include "diag/terminal.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

/// The last line: what was looked at, and what came of it.
std::string summary(const session::Session& session, const Options& options) {
  const diag::Findings& f = session.findings();
  std::size_t views = 0;
  for (const session::Result& r : session.results())
    views += r.plan.views.size();
  std::string what = counted(session.files_asked(), "protocol", "protocols");
  if (!options.kits.empty()) what += ", " + counted(options.kits.size(), "kit", "kits");
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
  const text::DiskFiles disk;
  session::Session session(disk);
  if (auto failed = run_session(session, options)) return *failed;
  Outcome outcome;
  outcome.code = code_for(session.findings(), options);
  if (options.format == Format::json) {
    outcome.out = diag::render_json(session.findings(), session.not_checked(), session.sources());
    return outcome;
  }
  if (options.format == Format::sarif) {
    outcome.out = diag::render_sarif(session.findings(), session.not_checked(), session.sources());
    return outcome;
  }
  const std::string open = not_checked_text(session);
  if (options.format == Format::lines) {
    outcome.out = diag::render_lines(session.findings(), session.sources()) + open +
                  summary(session, options);
    return outcome;
  }
  outcome.out = diag::render_terminal(session.findings(), session.sources());
  if (!open.empty()) outcome.out += open + "\n";
  outcome.out += summary(session, options);
  return outcome;
}

} // namespace norma::cli
