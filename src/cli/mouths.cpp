#include <algorithm>
#include <thread>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"
#include "emit/in_mouths.hpp"

namespace norma::cli {

Outcome mouths(const Options& options) {
  session::Session session;
  if (auto failed = run_session(session, options)) return *failed;
  if (auto failed = kit_not_read(session)) return *failed;
  const report::Report& report = session.report();
  Outcome outcome;
  outcome.code = code_for(report.findings, options);
  const unsigned machine = std::max(1u, std::thread::hardware_concurrency());
  constexpr unsigned most_threads = 16;
  const report::Amount amount{
      options.mouths, options.seed,
      std::min(options.threads == 0 ? machine : options.threads, most_threads)};
  const auto all = report::in_mouths(report, amount);
  if (options.format == Format::json) {
    outcome.out = emit::in_mouths_json(report, all, amount);
  } else {
    for (const report::InMouths& of : all)
      outcome.out +=
          (outcome.out.empty() ? "" : "\n") + emit::in_mouths(report, of, *options.language);
  }
  outcome.err =
      emit::findings_text(report, *options.language, options.err) + left_out_text(session, options);
  return outcome;
}

} // namespace norma::cli
