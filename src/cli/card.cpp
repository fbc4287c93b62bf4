#include <algorithm>

#include "cli/commands.hpp"
#include "cli/printing.hpp"
#include "cli/watching.hpp"
#include "emit/card_pages.hpp"
#include "report/unread.hpp"

namespace norma::cli {

Outcome card(const Options& options) {
  const Format format = format_of(options, Format::html);
  if (auto press = needs_press(format, options)) return *press;
  session::Session session;
  Outcome outcome;
  if (auto failed = run_plans(session, options, outcome)) return *failed;
  const report::Report& report = session.report();
  std::vector<emit::Cards> all;
  bool whole = true;
  for (const report::Held& held : report.held) {
    if (auto failed = no_such_series(report, held, options.series)) return *failed;
    all.push_back(emit::cards_of(report, held, options.series, *options.language));
    // Cards that are none are never a success, whatever --fail-on says.
    whole = whole && report::unread_of(report, held).whole();
  }
  if (!whole) outcome.code = std::max(outcome.code, 1);
  if (keeps_last(options, whole && !all.empty(), outcome)) return outcome;
  if (all.empty()) return outcome;
  if (format == Format::pdf) {
    const auto lay_out = options.compact ? emit::cards_in_rows : emit::cards_on_paper;
    return print_to(std::move(outcome), lay_out(all, paper_of(options), *options.language),
                    options);
  }
  const auto page = options.compact ? emit::cards_in_rows_html : emit::cards_html;
  return delivered(std::move(outcome), page(all, *options.language), options);
}

} // namespace norma::cli
