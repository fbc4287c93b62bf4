#include "cli/baseline.hpp"
#include "cli/commands.hpp"
#include "cli/pages.hpp"
#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/frame_words.hpp"
#include "emit/hosts.hpp"
#include "emit/sarif.hpp"
#include "emit/told.hpp"
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
                    std::optional<diag::Severity> fails, const Baseline* baseline = nullptr,
                    std::size_t known = 0) {
  const project::HeldAgainst* held = baseline == nullptr ? nullptr : &baseline->held;
  switch (options.format) {
  case Format::json: return emit::findings_json(report, held);
  case Format::sarif: return emit::findings_sarif(report, page_on, held);
  case Format::github: return emit::findings_github(report);
  case Format::gitlab: return emit::findings_gitlab(report);
  case Format::junit: return emit::findings_junit(report, fails);
  default: break;
  }
  const bool lines = options.format == Format::lines;
  const std::string open =
      not_checked_text(report, *options.language, lines ? emit::Screen{} : options.out);
  const std::string of_baseline =
      baseline == nullptr ? "" : baseline_text(*baseline, known, options);
  if (lines)
    return emit::findings_lines(report, *options.language) + open + of_baseline +
           summary(report, *options.language);
  std::string out = emit::findings_text(report, *options.language, options.out);
  if (!open.empty()) out += open + "\n";
  out += of_baseline;
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
  if (auto failed = without_baseline(options, chosen)) return *failed;
  const bool knows = options.baseline || options.write_baseline;
  session::Session session;
  if (auto failed = run_chosen(session, options, chosen, Wanted::findings, knows)) return *failed;
  report::Report report = session.take_report();
  Outcome outcome;
  std::optional<Baseline> baseline;
  std::size_t known = 0;
  if (knows) {
    auto held = hold_against_known(report, options, chosen);
    if (auto* failed = std::get_if<Outcome>(&held)) return std::move(*failed);
    baseline = std::get<Baseline>(std::move(held));
    known = emit::told_apart(report).known;
    outcome.err = baseline->said;
    if (options.format == Format::text || options.format == Format::lines) {
      report.findings.leave_out_known();
      report.findings.settle();
      report.index();
    }
  }
  const auto fails = fails_on(options, chosen);
  const auto worst = report.findings.worst();
  outcome.code = fails && worst && *worst >= *fails ? 1 : 0;
  outcome.err += left_out_text(session, options) + left_out_text(chosen);
  outcome.out = printed(report, options, fails, baseline ? &*baseline : nullptr, known);
  return outcome;
}

} // namespace norma::cli
