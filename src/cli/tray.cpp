#include <algorithm>

#include "cli/printing.hpp"
#include "emit/csv.hpp"
#include "emit/findings_text.hpp"
#include "emit/laid_out.hpp"
#include "report/unread.hpp"

namespace norma::cli {

Outcome tray(const Options& options) {
  const Format format = format_of(options, Format::text);
  if (auto press = needs_press(format, options)) return *press;
  session::Session session;
  if (auto failed = run_session(session, options, Wanted::plans)) return *failed;
  if (auto failed = kit_not_read(session)) return *failed;
  const report::Report& report = session.report();
  Outcome outcome;
  outcome.code = code_for(report.findings, options);
  outcome.err =
      emit::findings_text(report, *options.language, options.err) + left_out_text(session, options);
  const int patients = static_cast<int>(options.patients);
  std::vector<emit::Document> all;
  std::string table = emit::csv_row({"protocol", "kit", "thing", "for one patient", "for all",
                                     "goes into the mouth", "bag", "only for a second choice"});
  for (const report::Held& held : report.held) {
    if (auto failed = no_such_series(report, held, options.series)) return *failed;
    all.push_back(emit::laid_out(report, held, options.series, patients, *options.language));
    table += emit::laid_out_csv(report, held, options.series, patients, *options.language);
    if (!report::unread_of(report, held).whole()) outcome.code = std::max(outcome.code, 1);
  }
  if (format == Format::csv) return delivered(std::move(outcome), std::move(table), options);
  return documents_to(std::move(outcome), all, format, options);
}

} // namespace norma::cli
