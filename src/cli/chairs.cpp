#include <algorithm>

#include "cli/commands.hpp"
#include "emit/chairs.hpp"
#include "emit/findings_text.hpp"

namespace norma::cli {

namespace {

void chairs_of(const Options& one, Outcome& outcome) {
  session::Session session;
  if (auto failed = run_session(session, one)) {
    outcome = std::move(*failed);
    return;
  }
  if (auto failed = kit_not_read(session)) {
    outcome = std::move(*failed);
    return;
  }
  outcome.code = std::max(outcome.code, code_for(session.report().findings, one));
  // Results come group by group, and within that kit by kit.
  const std::vector<report::Held>& all = session.report().held;
  for (std::size_t i = 0; i < all.size();) {
    std::vector<const report::Held*> held;
    const model::Protocol* protocol = all[i].protocol;
    for (; i < all.size() && all[i].protocol == protocol; ++i)
      held.push_back(&all[i]);
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out += emit::chairs(session.report(), held, *one.language);
  }
  if (all.empty()) outcome.err += emit::findings_text(session.report(), *one.language);
}

} // namespace

Outcome chairs(const Options& options) {
  const auto files = protocol_files(options);
  if (const auto* failed = std::get_if<Outcome>(&files)) return *failed;
  Outcome outcome;
  // Each by itself: views of two protocols may have one name.
  for (const std::string& file : std::get<std::vector<std::string>>(files)) {
    Options one = options;
    one.files = {file};
    chairs_of(one, outcome);
    if (outcome.code == 2) break;
  }
  return outcome;
}

} // namespace norma::cli
