#include <fmt/core.h>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"
#include "session/documents.hpp"
#include "text/utf8.hpp"

namespace norma::cli {

Outcome show(const Options& options) {
  const text::DiskFiles disk;
  Outcome outcome;
  for (const std::string& path : options.files) {
    const auto run = session::show(disk, path, options.root, options.group);
    if (run->unreadable) {
      return could_not_run(fmt::format("cannot read {}: {}", path, run->unreadable->why));
    }
    if (!run->made && run->report.findings.empty())
      return no_such_group(path, options.group, run->groups);
    outcome.err += emit::findings_text(run->report, *options.language);
    outcome.code = std::max(outcome.code, code_for(run->report.findings, options));
    if (!run->made) continue;
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out += text::printable(*run->made, true); // texts are the writer's own
  }
  return outcome;
}

} // namespace norma::cli
