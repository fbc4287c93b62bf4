#include "cli/commands.hpp"
#include "diag/terminal.hpp"
#include "emit/plan_json.hpp"

namespace norma::cli {

Outcome plan(const Options& options) {
  const text::DiskFiles disk;
  session::Session session(disk);
  if (auto failed = run_session(session, options, true)) return *failed;
  Outcome outcome;
  outcome.code = code_for(session.findings(), options);
  // The plan is for machines: what stands against it goes beside, not into, the document.
  outcome.err = diag::render_terminal(session.findings(), session.sources());
  std::vector<const plan::Plan*> plans;
  for (const session::Result& r : session.results())
    plans.push_back(&r.plan);
  outcome.out = emit::plan_json(plans);
  return outcome;
}

} // namespace norma::cli
