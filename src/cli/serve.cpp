#include "server/server.hpp"

#include "cli/commands.hpp"

namespace norma::cli {

Outcome serve(const Options& options) {
  const auto day = day_of(options);
  if (const auto* failed = std::get_if<Outcome>(&day)) return *failed;
  if (!options.wire.read || !options.wire.write)
    return could_not_run("there is no standard input to take messages from");
  if (!options.open_host && options.has_press &&
      options.has_press()) { // which can show a page, too
    Outcome press;
    press.code = 2;
    press.err = "norma: norma-press, which lies beside norma, does not start\n";
    press.needs_press = true;
    return press;
  }
  server::Settings settings;
  settings.open_host = options.open_host;
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
