#include <fmt/core.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"
#include "emit/checklist.hpp"

namespace norma::cli {

Outcome list(const Options& options) {
  session::Session session;
  if (auto failed = run_session(session, options, Wanted::plans_and_fingerprints)) return *failed;
  if (auto failed = kit_not_read(session)) return *failed;
  Outcome outcome;
  outcome.code = code_for(session.report().findings, options);
  outcome.err = emit::findings_text(session.report());
  for (const report::Held& r : session.report().held) {
    const auto& all = r.protocol->series;
    const bool known =
        options.series.empty() || std::any_of(all.begin(), all.end(), [&](const model::Series& s) {
          return s.name == options.series;
        });
    if (!known) {
      std::string names;
      for (const model::Series& s : all)
        names += (names.empty() ? "" : ", ") + s.name;
      return could_not_run(fmt::format("{} has no series {}; it has: {}", std::string(session.report().names(r.about).file),
                                       options.series, names.empty() ? "none" : names));
    }
    const emit::Document document = emit::checklist(session.report(), r, options.series);
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out +=
        options.format == Format::markdown ? emit::as_markdown(document) : emit::as_text(document);
  }
  return outcome;
}

} // namespace norma::cli
