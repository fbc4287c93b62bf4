#include "emit/chairs.hpp"

#include <algorithm>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"

namespace norma::cli {

Outcome chairs(const Options& options) {
  session::Session session;
  if (auto failed = run_session(session, options)) return *failed;
  if (auto failed = kit_not_read(session)) return *failed;
  const report::Report& report = session.report();
  Outcome outcome;
  outcome.code = code_for(report.findings, options);
  // Results come file by file, group by group, and within that kit by kit.
  const std::vector<report::Held>& all = report.held;
  for (std::size_t i = 0; i < all.size();) {
    std::vector<const report::Held*> held;
    const model::Protocol* protocol = all[i].protocol;
    for (; i < all.size() && all[i].protocol == protocol; ++i)
      held.push_back(&all[i]);
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out += emit::chairs(report, held, *options.language);
  }
  // Of a file that holds no protocol there is no table, only what is wrong with it.
  const bool table_of_each =
      std::all_of(report.files.begin(), report.files.end(), [&](const report::File& file) {
        const std::vector<std::string>& without = session.no_group();
        return !file.protocols.empty() ||
               std::find(without.begin(), without.end(), file.path) != without.end();
      });
  if (!table_of_each) outcome.err = emit::findings_text(report, *options.language, options.err);
  outcome.err += left_out_text(session, options);
  return outcome;
}

} // namespace norma::cli
