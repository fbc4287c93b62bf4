#include "cli/commands.hpp"
#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/frame_words.hpp"
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

} // namespace

Outcome check(const Options& options) {
  session::Session session;
  if (auto failed = run_session(session, options, Wanted::findings)) return *failed;
  const report::Report& report = session.report();
  Outcome outcome;
  outcome.code = code_for(report.findings, options);
  outcome.err = left_out_text(session, options);
  if (options.format == Format::json) {
    outcome.out = emit::findings_json(report);
    return outcome;
  }
  if (options.format == Format::sarif) {
    outcome.out = emit::findings_sarif(report);
    return outcome;
  }
  const bool lines = options.format == Format::lines;
  const std::string open =
      not_checked_text(report, *options.language, lines ? emit::Screen{} : options.out);
  if (lines) {
    outcome.out =
        emit::findings_lines(report, *options.language) + open + summary(report, *options.language);
    return outcome;
  }
  outcome.out = emit::findings_text(report, *options.language, options.out);
  if (!open.empty()) outcome.out += open + "\n";
  outcome.out += emit::fitted(summary(report, *options.language), options.out, 2);
  return outcome;
}

} // namespace norma::cli
