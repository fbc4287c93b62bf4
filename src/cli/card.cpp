#include <fmt/core.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "emit/card_pages.hpp"
#include "emit/findings_text.hpp"
#include "report/unread.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

bool wants_pdf(const Options& options) {
  const std::string& file = options.output;
  return options.format == Format::pdf ||
         (options.format == Format::text && file.ends_with(".pdf"));
}

/// On paper; `outcome` tells what did not fit, or why there is none.
std::string printed(const std::vector<emit::Cards>& all, const Options& options, Outcome& outcome) {
  const emit::PaperSize& paper = options.paper == PaperName::a4 ? emit::a4 : emit::us_letter;
  Printed out = options.print(emit::cards_on_paper(all, paper, *options.language));
  for (const std::string& page : out.too_long)
    outcome.err += fmt::format("norma: card `{}`: a text is too long for its place, and was cut\n",
                               text::printable(page));
  if (out.letters_missing > 0)
    outcome.err += fmt::format("norma: letters that the font does not have, shown as boxes: {}\n",
                               out.letters_missing);
  if (!out.failed.empty()) {
    outcome.err += fmt::format("norma: the PDF could not be made: {}\n", out.failed);
    outcome.code = 2;
  } else if (!out.too_long.empty() || out.letters_missing > 0) {
    outcome.code = std::max(outcome.code, 1);
  }
  return std::move(out.bytes);
}

} // namespace

Outcome card(const Options& options) {
  const bool pdf = wants_pdf(options);
  if (pdf && !options.print) {
    Outcome none = could_not_run("a PDF needs the program norma-press beside norma, and it is not "
                                 "there; --format html prints as well");
    none.needs_press = true;
    return none;
  }
  session::Session session;
  if (auto failed = run_session(session, options, Wanted::plans)) return *failed;
  if (auto failed = kit_not_read(session)) return *failed;
  const report::Report& report = session.report();
  Outcome outcome;
  outcome.code = code_for(report.findings, options);
  outcome.err =
      emit::findings_text(report, *options.language, options.err) + left_out_text(session, options);
  std::vector<emit::Cards> all;
  for (const report::Held& held : report.held) {
    if (auto failed = no_such_series(report, held, options.series)) return *failed;
    all.push_back(emit::cards_of(report, held, options.series, *options.language));
    // Cards that are none are never a success, whatever --fail-on says.
    if (!report::unread_of(report, held).whole()) outcome.code = std::max(outcome.code, 1);
  }
  if (all.empty()) return outcome;
  std::string document =
      pdf ? printed(all, options, outcome) : emit::cards_html(all, *options.language);
  if (outcome.code == 2) return outcome;
  return delivered(std::move(outcome), std::move(document), options);
}

} // namespace norma::cli
