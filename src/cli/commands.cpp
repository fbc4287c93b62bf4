#include "cli/commands.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <ctime>

#include "text/utf8.hpp"

namespace norma::cli {
namespace {

words::Date today() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  localtime_r(&now, &parts);
  return {parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday};
}

} // namespace

Outcome could_not_run(const std::string& why) {
  return {2, "", fmt::format("norma: {}\n", text::printable(why))};
}

std::optional<Outcome> run_session(session::Session& session, const Options& options) {
  session::Request request;
  request.protocols = options.files;
  request.kits = options.kits;
  request.on = today();
  if (!options.on.empty()) {
    const auto date = words::parse_date(options.on);
    if (std::holds_alternative<words::LiteralError>(date)) {
      return could_not_run(
          fmt::format("--on {}: a day is written like 2026-11-25, and must exist", options.on));
    }
    request.on = std::get<words::Date>(date);
  }
  if (const auto missing = session.run(request)) {
    return could_not_run(fmt::format("cannot read {}: {}", missing->path, missing->error.why));
  }
  return std::nullopt;
}

int code_for(const diag::Findings& findings, const Options& options) {
  const auto worst = findings.worst();
  return !options.never_fail && worst && *worst >= options.fail_on ? 1 : 0;
}

std::string not_checked_text(const session::Session& session) {
  struct Group {
    std::string kit;
    std::string missing;
    std::vector<std::string> views;
    std::vector<std::string> what;
  };
  // Questions of one view with one missing datum first, then views with the same questions.
  std::vector<Group> groups;
  for (const diag::NotChecked& n : session.not_checked()) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
      return g.kit == n.kit && g.missing == n.missing && g.views.front() == n.view;
    });
    if (same == groups.end()) {
      groups.push_back({n.kit, n.missing, {n.view}, {n.what}});
    } else {
      same->what.push_back(n.what);
    }
  }
  std::vector<Group> merged;
  for (Group& g : groups) {
    const auto same = std::find_if(merged.begin(), merged.end(), [&](const Group& m) {
      return m.kit == g.kit && m.missing == g.missing && m.what == g.what;
    });
    if (same == merged.end()) {
      merged.push_back(std::move(g));
    } else {
      same->views.push_back(g.views.front());
    }
  }
  std::string out;
  for (const Group& g : merged) {
    std::string views;
    for (const std::string& v : g.views)
      views += (views.empty() ? "" : ", ") + v;
    std::string what;
    for (const std::string& w : g.what)
      what += (what.empty() ? "" : "; ") + w;
    out += fmt::format("Not checked: {}{}{}: {} (missing: {})\n",
                       g.views.size() > 1 ? "views " : "view ", views,
                       g.kit.empty() ? "" : fmt::format(" with {}", g.kit), what, g.missing);
  }
  return text::printable(out, true);
}

} // namespace norma::cli
