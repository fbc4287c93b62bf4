#include <fmt/core.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "diag/terminal.hpp"
#include "emit/checklist.hpp"

namespace norma::cli {

Outcome list(const Options& options) {
  const text::DiskFiles disk;
  session::Session session(disk);
  if (auto failed = run_session(session, options, true)) return *failed;
  if (auto failed = kit_not_read(session, options)) return *failed;
  Outcome outcome;
  outcome.code = code_for(session.findings(), options);
  outcome.err = diag::render_terminal(session.findings(), session.sources());
  for (const session::Result& r : session.results()) {
    const auto& all = r.protocol->series;
    const bool known =
        options.series.empty() || std::any_of(all.begin(), all.end(), [&](const model::Series& s) {
          return s.name == options.series;
        });
    if (!known) {
      std::string names;
      for (const model::Series& s : all)
        names += (names.empty() ? "" : ", ") + s.name;
      return could_not_run(fmt::format("{} has no series {}; it has: {}", r.protocol_path,
                                       options.series, names.empty() ? "none" : names));
    }
    const emit::Document document = emit::checklist(r.plan, session.findings(), options.series);
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out +=
        options.format == Format::markdown ? emit::as_markdown(document) : emit::as_text(document);
  }
  return outcome;
}

} // namespace norma::cli
