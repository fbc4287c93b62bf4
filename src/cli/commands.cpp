#include "cli/commands.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <ctime>
#include <filesystem>

#include "cli/progress.hpp"
#include "emit/findings_text.hpp"
#include "emit/frame_words.hpp"
#include "emit/not_checked.hpp"
#include "report/unread.hpp"
#include "text/suggest.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

words::Date today() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  localtime_r(&now, &parts);
  return {parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday};
}

bool looks_like_kit(const std::string& name) {
  return name.ends_with(".yaml") || name.ends_with(".yml");
}

} // namespace

Outcome could_not_run(const std::string& why) {
  return {2, "", fmt::format("norma: {}\n", text::printable(why))};
}

Outcome delivered(Outcome outcome, std::string document, const Options& options) {
  if (options.output.empty()) {
    outcome.out = std::move(document);
  } else if (const auto error = text::put_file(options.output, document)) {
    return could_not_run(fmt::format("cannot write {}: {}", options.output, error->why));
  } else {
    outcome.written = true;
  }
  return outcome;
}

Outcome no_such_view(const std::string& path, const std::string& view,
                     const std::vector<std::string_view>& names) {
  const auto near = text::nearest(view, names);
  return could_not_run(fmt::format("{} has no view `{}`{}", path, view,
                                   near ? fmt::format("; did you mean `{}`?", *near) : ""));
}

std::variant<words::Date, Outcome> day_of(const Options& options) {
  if (options.on.empty()) return today();
  const auto date = words::parse_date(options.on);
  if (const auto* day = std::get_if<words::Date>(&date)) return *day;
  return could_not_run(
      fmt::format("--on {}: a day is written like 2026-11-25, and must exist", options.on));
}

bool is_overlay(const Options& options, const std::string& path) {
  return std::any_of(options.overlays.begin(), options.overlays.end(),
                     [&](const session::Overlay& over) { return over.path == path; });
}

std::optional<Outcome> needs_revisions(const Options& options) {
  if (options.repository.files) return std::nullopt;
  const auto ended = [](std::string why) {
    Outcome out = could_not_run(why);
    out.needs_press = true;
    return out;
  };
  const auto of_revision = [&](const std::string& name) {
    const std::size_t colon = name.find(':');
    return colon != std::string::npos && colon > 0 && !is_overlay(options, name) &&
           !text::is_there(name);
  };
  std::vector<std::string> names = options.files;
  names.insert(names.end(), options.kits.begin(), options.kits.end());
  names.insert(names.end(), options.old_kits.begin(), options.old_kits.end());
  names.push_back(options.stdin_name);
  for (const std::string& name : names) {
    if (of_revision(name))
      return ended(fmt::format("{} is no file, and to read a revision norma needs the program "
                               "norma-press beside it, which is not there",
                               name));
  }
  for (const std::string& name : options.files) {
    // Any other name may be a revision's; what is missing is told by who can look.
    const bool is_file = name.empty() || name == "-" || is_overlay(options, name) ||
                         name.ends_with(".norma") || looks_like_kit(name) || text::is_there(name);
    if (!is_file) return ended(fmt::format("cannot read {}: there is no such file", name));
  }
  return std::nullopt;
}

std::variant<std::vector<std::string>, Outcome> protocols_of(const std::string& argument,
                                                             const Options& options) {
  if (is_overlay(options, argument)) return std::vector{argument};
  if (looks_like_kit(argument) && !text::is_folder(argument))
    return could_not_run(
        fmt::format("{} looks like a kit: give it as --kit {}", argument, argument));
  auto listed = options.reading->listed(argument, ".norma");
  if (const auto* error = std::get_if<text::ReadError>(&listed))
    return could_not_run(fmt::format("cannot read {}: {}", argument, error->why));
  auto& found = std::get<std::vector<std::string>>(listed);
  if (found.empty() && !options.may_be_empty)
    return could_not_run(fmt::format("there is no protocol (.norma) below {}", argument));
  return std::move(found);
}

std::string name_below(const std::string& argument, const std::string& file) {
  if (file == argument) return "";
  // Listed paths are plain: `./protocols/` is `protocols`.
  std::string folder = std::filesystem::path(argument).lexically_normal().string();
  if (file.starts_with(argument)) folder = argument; // of a revision, above all
  if (folder == "." || !file.starts_with(folder)) return file;
  const std::size_t behind = file.find_first_not_of("/:", folder.size());
  return behind == std::string::npos ? file : file.substr(behind);
}

std::variant<std::vector<std::string>, Outcome> protocol_files(const Options& options) {
  if (auto press = needs_revisions(options)) return *std::move(press);
  std::vector<std::string> out;
  for (const std::string& argument : options.files) {
    auto found = protocols_of(argument, options);
    if (auto* failed = std::get_if<Outcome>(&found)) return std::move(*failed);
    const auto& files = std::get<std::vector<std::string>>(found);
    out.insert(out.end(), files.begin(), files.end());
  }
  return out;
}

std::optional<Outcome> kit_not_read(const session::Session& session) {
  for (const report::Kit& kit : session.report().kits) {
    if (kit.kit->readable) continue;
    return could_not_run(
        fmt::format("{} cannot be read as a kit; `norma kit {}` says why", kit.path, kit.path));
  }
  return std::nullopt;
}

std::optional<Outcome> run_session(session::Session& session, const Options& options, Wanted wanted,
                                   Needs needs) {
  auto answer = chosen_of(options);
  if (auto* failed = std::get_if<Outcome>(&answer)) return std::move(*failed);
  if (const auto* broken = std::get_if<project::NotRead>(&answer))
    return project_not_read(*broken, options);
  const Chosen& chosen = std::get<Chosen>(answer);
  if (needs == Needs::kit) {
    if (auto failed = without_kit(chosen)) return failed;
  }
  return run_chosen(session, options, chosen, wanted);
}

std::optional<Outcome> run_chosen(session::Session& session, const Options& options,
                                  const Chosen& chosen, Wanted wanted, bool all) {
  session::Request request;
  request.all_findings = all;
  request.protocols = chosen.protocols;
  request.kits = chosen.kits;
  request.own = chosen.own;
  request.root = options.root;
  request.fingerprints = wanted == Wanted::plans_and_fingerprints;
  request.plans = wanted != Wanted::findings;
  request.group = options.group;
  request.scene = !options.no_scene;
  request.threads = options.threads;
  request.overlays = options.overlays;
  const Progress progress(request.protocols.size());
  if (progress.shown()) request.progress = [&](std::size_t done) { progress.tell(done); };
  const auto day = day_of(options);
  if (const auto* failed = std::get_if<Outcome>(&day)) return *failed;
  request.on = std::get<words::Date>(day);
  if (const auto missing = session.run(*options.reading, request)) {
    return could_not_run(fmt::format("cannot read {}: {}", missing->path, missing->error.why));
  }
  if (options.read) options.read(session.report().sources);
  const std::vector<std::string>& without = session.no_group();
  if (!without.empty() && without.size() == session.report().files.size()) {
    return options.group.empty()
               ? could_not_run(fmt::format("{} says nothing for the groups of patients that {} "
                                           "names; --for GROUP looks at one all the same",
                                           without.front(), text::project_file))
               : no_such_group(without.front(), options.group, {});
  }
  return std::nullopt;
}

std::string left_out_text(const std::string& path, const Options& options) {
  if (options.group.empty())
    return could_not_run(fmt::format("{} is left out: it says nothing for the groups of patients "
                                     "that {} names",
                                     path, text::project_file))
        .err;
  return no_such_group(path + " is left out: it", options.group, {}).err;
}

std::string left_out_text(const session::Session& session, const Options& options) {
  std::string out;
  for (const std::string& path : session.no_group())
    out += left_out_text(path, options);
  return out;
}

Outcome no_such_group(const std::string& path, const std::string& group,
                      const std::vector<std::string>& groups) {
  std::string list;
  for (const std::string& g : groups)
    list += (list.empty() ? "; it speaks of: " : "; ") + g;
  return could_not_run(fmt::format("{} says nothing for {}{}", path, group, list));
}

int code_for(const diag::Findings& findings, const Options& options) {
  const auto worst = findings.worst();
  return !options.never_fail && worst && *worst >= options.fail_on ? 1 : 0;
}

std::string not_checked_text(const report::Report& report, const wording::Language& in,
                             const emit::Screen& screen) {
  std::vector<const report::NotChecked*> all;
  for (const report::NotChecked& n : report.not_checked)
    all.push_back(&n);
  std::string out;
  for (const std::string& line : emit::not_checked_lines(report, all, emit::Naming::all, in))
    out += emit::fitted(text::printable(in.text(emit::frame::was_not_checked(line))), screen, 2) +
           "\n";
  return out;
}

std::optional<Outcome> run_plans(session::Session& session, const Options& options,
                                 Outcome& outcome, Wanted wanted) {
  if (auto failed = run_session(session, options, wanted, Needs::kit)) return failed;
  if (auto failed = kit_not_read(session)) return failed;
  outcome.code = code_for(session.report().findings, options);
  outcome.err = emit::findings_text(session.report(), *options.language, options.err) +
                left_out_text(session, options);
  return std::nullopt;
}

std::optional<Outcome> no_such_series(const report::Report& report, const report::Held& held,
                                      const std::string& series) {
  const auto& all = held.protocol->series;
  const bool known =
      series.empty() ||
      std::any_of(all.begin(), all.end(), [&](const model::Series& s) { return s.name == series; });
  // Of a file that could not be read whole, the list says so.
  if (known || !report::unread_of(report, held).whole()) return std::nullopt;
  std::string names;
  for (const model::Series& s : all)
    names += (names.empty() ? "" : ", ") + s.name;
  return could_not_run(fmt::format("{} has no series {}; it has: {}",
                                   std::string(report.names(held.about).file), series,
                                   names.empty() ? "none" : names));
}

} // namespace norma::cli
