#include <algorithm>

#include "cli/printing.hpp"
#include "emit/csv.hpp"
#include "emit/findings_text.hpp"
#include "emit/marks.hpp"
#include "report/unread.hpp"

namespace norma::cli {

Outcome marks(const Options& options) {
  const Format format = format_of(options, Format::text);
  if (auto press = needs_press(format, options)) return *press;
  session::Session session;
  Options without_kits = options;
  without_kits.no_project = true;
  if (auto failed = run_session(session, without_kits, Wanted::plans)) return *failed;
  const report::Report& report = session.report();
  Outcome outcome;
  // The sheet is of the protocol alone: what stands against it at a chair is told by `check`.
  std::vector<emit::Document> all;
  std::string table = emit::csv_row({"protocol", "view", "title", "criterion", "points", "reason"});
  for (const report::Held& held : report.held) {
    if (auto failed = no_such_series(report, held, options.series)) return *failed;
    if (format == Format::csv) {
      table += emit::marks_csv(report, held, options.series, *options.language);
    } else {
      all.push_back(emit::marks(report, held, options.series, *options.language));
    }
    if (report::unread_of(report, held).whole()) continue;
    outcome.code = 1;
    outcome.err = emit::findings_text(report, *options.language, options.err);
  }
  if (report.held.empty()) {
    outcome.code = 1;
    outcome.err = emit::findings_text(report, *options.language, options.err) +
                  left_out_text(session, options);
    return outcome;
  }
  if (format == Format::csv) return delivered(std::move(outcome), std::move(table), options);
  return documents_to(std::move(outcome), all, format, options);
}

} // namespace norma::cli
