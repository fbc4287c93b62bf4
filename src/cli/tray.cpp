#include <algorithm>

#include "cli/printing.hpp"
#include "emit/csv.hpp"
#include "emit/laid_out.hpp"
#include "report/unread.hpp"

namespace norma::cli {

Outcome tray(const Options& options) {
  const Format format = format_of(options, Format::text);
  if (auto press = needs_press(format, options)) return *press;
  session::Session session;
  Outcome outcome;
  if (auto failed = run_plans(session, options, outcome)) return *failed;
  const report::Report& report = session.report();
  const int patients = static_cast<int>(options.patients);
  std::vector<emit::Document> all;
  std::string table = emit::csv_row({"protocol", "kit", "thing", "for one patient", "for all",
                                     "goes into the mouth", "bag", "only for a second choice"});
  for (const report::Held& held : report.held) {
    if (auto failed = no_such_series(report, held, options.series)) return *failed;
    if (format == Format::csv) {
      table += emit::laid_out_csv(report, held, options.series, patients, *options.language);
    } else {
      all.push_back(emit::laid_out(report, held, options.series, patients, *options.language));
    }
    if (!report::unread_of(report, held).whole()) outcome.code = std::max(outcome.code, 1);
  }
  if (format == Format::csv) return delivered(std::move(outcome), std::move(table), options);
  return documents_to(std::move(outcome), all, format, options);
}

} // namespace norma::cli
