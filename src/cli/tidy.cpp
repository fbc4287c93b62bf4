#include <fmt/core.h>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"
#include "session/documents.hpp"
#include "text/utf8.hpp"

namespace norma::cli {

Outcome tidy(const Options& options) {
  const auto files = protocol_files(options);
  if (const auto* failed = std::get_if<Outcome>(&files)) return *failed;
  Outcome outcome;
  for (const std::string& path : std::get<std::vector<std::string>>(files)) {
    const auto run = session::tidy(*options.reading, path, options.overlays);
    if (run->unreadable) {
      return could_not_run(fmt::format("cannot read {}: {}", path, run->unreadable->why));
    }
    // Of standard input the text goes on; what is said of it must not stand in it.
    const bool piped = is_overlay(options, path);
    std::string& told = piped ? outcome.err : outcome.out;
    const emit::Screen& screen = piped ? options.err : options.out;
    if (!run->made) {
      told += emit::findings_text(run->report, *options.language, screen);
      told += fmt::format("{}: left as it is, until this is mended\n", text::printable(path));
      outcome.code = 1;
      continue;
    }
    const bool same = *run->made == run->report.sources[text::FileId{0}].bytes();
    if (piped && !options.check_only) {
      outcome.out += *run->made;
    } else if (same) {
      continue;
    } else if (options.check_only) {
      told += fmt::format("{}: not in the one layout\n", text::printable(path));
      outcome.code = 1;
    } else if (options.reading->is_fixed(path)) {
      return could_not_run(fmt::format(
          "cannot write {}: a revision stays as it is; --check tells what is not tidy", path));
    } else if (const auto error = text::replace_file(path, *run->made)) {
      return could_not_run(fmt::format("cannot write {}: {}", path, error->why));
    } else {
      told += fmt::format("{}: tidied\n", text::printable(path));
    }
  }
  return outcome;
}

} // namespace norma::cli
