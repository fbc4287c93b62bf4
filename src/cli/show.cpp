#include <fmt/core.h>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"
#include "session/documents.hpp"
#include "text/utf8.hpp"

namespace norma::cli {

Outcome show(const Options& options) {
  const auto files = protocol_files(options);
  if (const auto* failed = std::get_if<Outcome>(&files)) return *failed;
  Outcome outcome;
  std::string left_out;
  std::optional<Outcome> no_group;
  bool any = false;
  for (const std::string& path : std::get<std::vector<std::string>>(files)) {
    const auto run =
        session::show(*options.reading, path, options.root, options.group, options.overlays,
                      options.plain ? session::Showing::plain : session::Showing::with_places);
    if (run->unreadable) {
      return could_not_run(fmt::format("cannot read {}: {}", path, run->unreadable->why));
    }
    if (!run->made && (options.plain || run->report.findings.empty())) {
      if (!no_group) no_group = no_such_group(path, options.group, run->groups);
      left_out += left_out_text(path, options);
      continue;
    }
    any = true;
    // What is only compared says in itself what could not be read.
    if (!options.plain) {
      outcome.err += emit::findings_text(run->report, *options.language, options.err);
      outcome.code = std::max(outcome.code, code_for(run->report.findings, options));
    }
    if (!run->made) continue;
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out += text::printable(*run->made, true); // texts are the writer's own
  }
  if (no_group && !any) return *no_group;
  outcome.err += left_out;
  return outcome;
}

} // namespace norma::cli
