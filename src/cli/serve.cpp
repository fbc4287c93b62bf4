#include "server/server.hpp"

#include "cli/commands.hpp"

namespace norma::cli {

Outcome serve(const Options& options) {
  const auto day = day_of(options);
  if (const auto* failed = std::get_if<Outcome>(&day)) return *failed;
  if (!options.wire.read || !options.wire.write)
    return could_not_run("there is no standard input to take messages from");
  server::Settings settings;
  settings.language = options.language;
  // It may run past midnight.
  settings.on = [&options] {
    const auto today = day_of(options);
    const auto* known = std::get_if<words::Date>(&today);
    return known == nullptr ? words::Date{} : *known;
  };
  Outcome outcome;
  outcome.code = server::serve(options.wire, settings);
  return outcome;
}

} // namespace norma::cli
