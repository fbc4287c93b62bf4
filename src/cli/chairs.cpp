#include "emit/chairs.hpp"

#include <algorithm>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"

namespace norma::cli {
namespace {

/// Results come group by group, and within that kit by kit.
void put_tables(const session::Session& session, const Options& options, Outcome& outcome) {
  const std::vector<report::Held>& all = session.report().held;
  for (std::size_t i = 0; i < all.size();) {
    std::vector<const report::Held*> held;
    const model::Protocol* protocol = all[i].protocol;
    for (; i < all.size() && all[i].protocol == protocol; ++i)
      held.push_back(&all[i]);
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out += emit::chairs(session.report(), held, *options.language);
  }
  if (all.empty())
    outcome.err += emit::findings_text(session.report(), *options.language, options.err);
}

} // namespace

Outcome chairs(const Options& options) {
  const auto files = chosen_of(options);
  if (const auto* failed = std::get_if<Outcome>(&files)) return *failed;
  if (const auto* broken = std::get_if<project::NotRead>(&files))
    return project_not_read(*broken, options);
  Outcome outcome;
  std::optional<Outcome> no_group;
  bool any = false;
  // Each by itself: what is accepted in a base may come up with another file alone.
  for (const std::string& file : std::get<Chosen>(files).protocols) {
    Options one = options;
    one.files = {file};
    session::Session session;
    if (auto failed = run_session(session, one, Wanted::plans, Needs::kit)) {
      if (session.no_group().empty()) return *failed;
      if (!no_group) no_group = std::move(failed);
      outcome.err += left_out_text(session, options);
      continue;
    }
    any = true;
    if (auto failed = kit_not_read(session)) return *failed;
    outcome.code = std::max(outcome.code, code_for(session.report().findings, options));
    put_tables(session, options, outcome);
  }
  return any ? outcome : *no_group;
}

} // namespace norma::cli
