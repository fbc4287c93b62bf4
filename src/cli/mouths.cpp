#include "cli/commands.hpp"
#include "emit/in_mouths.hpp"

namespace norma::cli {

Outcome mouths(const Options& options) {
  session::Session session;
  Outcome outcome;
  if (auto failed = run_plans(session, options, outcome)) return *failed;
  const report::Report& report = session.report();
  const report::Amount amount{options.mouths, options.seed, session::threads_for(options.threads)};
  const auto all = report::in_mouths(report, amount);
  if (options.format == Format::json) {
    outcome.out = emit::in_mouths_json(report, all, amount);
  } else {
    for (const report::InMouths& of : all)
      outcome.out +=
          (outcome.out.empty() ? "" : "\n") + emit::in_mouths(report, of, *options.language);
  }
  return outcome;
}

} // namespace norma::cli
