#include <fmt/core.h>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"
#include "session/documents.hpp"
#include "text/utf8.hpp"

namespace norma::cli {

Outcome tidy(const Options& options) {
  const text::DiskFiles disk;
  Outcome outcome;
  for (const std::string& path : options.files) {
    const auto run = session::tidy(disk, path);
    if (run->unreadable) {
      return could_not_run(fmt::format("cannot read {}: {}", path, run->unreadable->why));
    }
    if (!run->made) {
      outcome.out += emit::findings_text(run->report, *options.language);
      outcome.out +=
          fmt::format("{}: left as it is, until this is mended\n", text::printable(path));
      outcome.code = 1;
      continue;
    }
    if (*run->made == run->report.sources[text::FileId{0}].bytes()) continue;
    if (options.check_only) {
      outcome.out += fmt::format("{}: not in the one layout\n", text::printable(path));
      outcome.code = 1;
      continue;
    }
    if (const auto error = text::replace_file(path, *run->made)) {
      return could_not_run(fmt::format("cannot write {}: {}", path, error->why));
    }
    outcome.out += fmt::format("{}: tidied\n", text::printable(path));
  }
  return outcome;
}

} // namespace norma::cli
