#include <algorithm>

#include "cli/printing.hpp"
#include "cli/watching.hpp"
#include "emit/checklist.hpp"
#include "report/unread.hpp"

namespace norma::cli {

Outcome list(const Options& options) {
  const Format format = format_of(options, Format::text);
  if (auto press = needs_press(format, options)) return *press;
  session::Session session;
  Outcome outcome;
  if (auto failed = run_plans(session, options, outcome, Wanted::plans_and_fingerprints))
    return *failed;
  const report::Report& report = session.report();
  std::vector<emit::Document> all;
  // A list that is none is never a success, whatever --fail-on says.
  bool whole = true;
  const auto not_whole = [&] {
    outcome.code = std::max(outcome.code, 1);
    whole = false;
  };
  const std::vector<std::string>& left_out = session.no_group();
  for (std::size_t file = 0; file < report.files.size(); ++file) {
    if (std::find(left_out.begin(), left_out.end(), report.files[file].path) != left_out.end())
      continue;
    bool any = false;
    for (const report::Held& r : report.held) {
      if (r.about.file != static_cast<int>(file)) continue;
      any = true;
      if (auto failed = no_such_series(report, r, options.series)) return *failed;
      all.push_back(emit::checklist(report, r, options.series, *options.language));
      if (!report::unread_of(report, r).whole()) not_whole();
    }
    if (any) continue;
    all.push_back(emit::no_checklist(report, report.files[file], *options.language));
    not_whole();
  }
  if (keeps_last(options, whole && !all.empty(), outcome)) return outcome;
  return documents_to(std::move(outcome), all, format, options);
}

} // namespace norma::cli
