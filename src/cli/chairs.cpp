#include <fmt/core.h>

#include "cli/commands.hpp"
#include "diag/terminal.hpp"
#include "emit/chairs.hpp"

namespace norma::cli {

Outcome chairs(const Options& options) {
  const text::DiskFiles disk;
  session::Session session(disk);
  if (auto failed = run_session(session, options)) return *failed;
  Outcome outcome;
  outcome.code = code_for(session.findings(), options);
  // Results come protocol by protocol, group by group, and within that kit by kit.
  const std::vector<session::Result>& all = session.results();
  for (std::size_t i = 0; i < all.size();) {
    std::vector<const plan::Plan*> plans;
    const model::Protocol* protocol = all[i].protocol;
    for (; i < all.size() && all[i].protocol == protocol; ++i)
      plans.push_back(&all[i].plan);
    if (!outcome.out.empty()) outcome.out += '\n';
    outcome.out += emit::chairs(plans, session.findings());
  }
  if (all.empty()) outcome.err = diag::render_terminal(session.findings(), session.sources());
  return outcome;
}

} // namespace norma::cli
