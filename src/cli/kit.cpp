#include <fmt/core.h>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"
#include "emit/kit_words.hpp"

namespace norma::cli {

Outcome kit(const Options& options) {
  session::Session session;
  if (auto press = needs_revisions(options)) return *press;
  Chosen kits_only;
  kits_only.kits = options.files;
  if (auto failed = run_chosen(session, options, kits_only, Wanted::plans)) return *failed;
  Outcome outcome;
  outcome.code = code_for(session.report().findings, options);
  outcome.err = emit::findings_text(session.report(), *options.language, options.err);
  for (const report::Kit& one : session.report().kits) {
    if (!one.kit->readable) continue; // what is wrong with it is told beside
    const emit::Document document =
        emit::kit_words(*one.kit, session.report().on, *options.language);
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out +=
        options.format == Format::markdown ? emit::as_markdown(document) : emit::as_text(document);
  }
  return outcome;
}

} // namespace norma::cli
