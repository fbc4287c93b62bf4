#include "cli/commands.hpp"
#include "cli/pages.hpp"
#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/frame_words.hpp"
#include "emit/hosts.hpp"
#include "emit/sarif.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

/// The last line: what was looked at, and what came of it.
std::string summary(const report::Report& report, const wording::Language& in) {
  namespace frame = emit::frame;
  const diag::Findings& f = report.findings;
  std::size_t views = 0;
  for (const report::Held& h : report.held)
    views += h.protocol->views.size();
  const auto counted = [](std::size_t count, const diag::Term& one,
                          const diag::Sentence<1>& several) {
    return count == 1 ? one() : several(static_cast<int>(count));
  };
  diag::List what{{counted(report.files.size(), frame::one_protocol, frame::protocols)}};
  if (!report.kits.empty())
    what.items.emplace_back(counted(report.kits.size(), frame::one_kit, frame::kits));
  what.items.emplace_back(counted(views, frame::one_view_of_all, frame::views_of_all));
  diag::List found{{counted(f.count(diag::Severity::error), frame::one_error, frame::errors),
                    counted(f.count(diag::Severity::warning), frame::one_warning, frame::warnings),
                    counted(f.count(diag::Severity::advice), frame::one_advice, frame::advices)}};
  const auto accepted = static_cast<int>(f.accepted());
  return in.text(accepted == 0
                     ? frame::checked(std::move(what), std::move(found))
                     : frame::checked_accepted(std::move(what), std::move(found), accepted)) +
         "\n";
}

std::string_view page_on(std::string_view code) {
  for (const Page& page : pages()) {
    if (page.code == code) return page.text;
  }
  return {};
}

/// All that was found, in the form that was asked for.
std::string printed(const report::Report& report, const Options& options,
                    std::optional<diag::Severity> fails) {
  switch (options.format) {
  case Format::json: return emit::findings_json(report);
  case Format::sarif: return emit::findings_sarif(report, page_on);
  case Format::github: return emit::findings_github(report);
  case Format::gitlab: return emit::findings_gitlab(report);
  case Format::junit: return emit::findings_junit(report, fails);
  default: break;
  }
  const bool lines = options.format == Format::lines;
  const std::string open =
      not_checked_text(report, *options.language, lines ? emit::Screen{} : options.out);
  if (lines)
    return emit::findings_lines(report, *options.language) + open +
           summary(report, *options.language);
  std::string out = emit::findings_text(report, *options.language, options.out);
  if (!open.empty()) out += open + "\n";
  return out + emit::fitted(summary(report, *options.language), options.out, 2);
}

/// Findings of the project file alone.
Outcome check_project_file(const project::NotRead& broken, const Options& options) {
  Outcome out = project_not_read(broken, options);
  if (options.format == Format::text) return out;
  const report::Report report = report::findings_alone(broken.findings, broken.sources);
  out.out = printed(report, options, diag::Severity::error);
  out.err = nothing_looked_at(broken).err;
  return out;
}

} // namespace

Outcome check(const Options& options) {
  auto answer = chosen_of(options);
  if (auto* failed = std::get_if<Outcome>(&answer)) return std::move(*failed);
  if (const auto* broken = std::get_if<project::NotRead>(&answer))
    return check_project_file(*broken, options);
  const Chosen& chosen = std::get<Chosen>(answer);
  session::Session session;
  if (auto failed = run_chosen(session, options, chosen, Wanted::findings)) return *failed;
  const report::Report& report = session.report();
  const auto fails = fails_on(options, chosen);
  Outcome outcome;
  const auto worst = report.findings.worst();
  outcome.code = fails && worst && *worst >= *fails ? 1 : 0;
  outcome.err = left_out_text(session, options) + left_out_text(chosen);
  outcome.out = printed(report, options, fails);
  return outcome;
}

} // namespace norma::cli
