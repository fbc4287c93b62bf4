#include <fmt/core.h>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"
#include "emit/off_plan.hpp"

namespace norma::cli {
namespace {

/// The first of `views` that no plan has.
std::optional<Outcome> unknown_view(const report::Report& report, const std::string& file,
                                    const std::vector<std::string>& views) {
  for (const std::string& name : views) {
    std::vector<std::string_view> names;
    bool known = report.held.empty();
    for (const report::Held& held : report.held) {
      known = known || held.plan.view(name) != nullptr;
      for (const plan::ViewPlan& view : held.plan.views)
        names.push_back(view.view->name);
    }
    if (!known) return no_such_view(file, name, names);
  }
  return std::nullopt;
}

} // namespace

Outcome margins(const Options& options) {
  Options of_file = options;
  of_file.files.resize(1);
  std::vector<std::string> views(options.files.begin() + 1, options.files.end());
  const bool drawn = !options.picture.empty();
  if (drawn) views = {options.picture};
  session::Session session;
  if (auto failed = run_session(session, of_file, Wanted::plans, Needs::kit)) return *failed;
  if (auto failed = kit_not_read(session)) return *failed;
  const report::Report& report = session.report();
  if (auto failed = unknown_view(report, of_file.files.front(), views)) return *failed;
  Outcome outcome;
  outcome.code = code_for(report.findings, options);
  const auto all = report::off_plan(
      report, views, {options.shots, options.seed, session::threads_for(options.threads)});
  std::string document;
  if (drawn) {
    if (all.size() != 1 || all.front().views.size() != 1)
      return could_not_run("--picture draws one view: give one kit (and --for where the protocol "
                           "speaks of several groups)");
    document = emit::off_plan_picture(all.front().views.front(), *options.language);
    if (document.empty())
      return could_not_run("view " + options.picture + " has no margins to draw; `norma margins` " +
                           "without --picture says why");
  } else if (options.format == Format::json) {
    document = emit::off_plan_json(report, all, options.seed);
  } else {
    for (const report::OffPlan& of : all)
      document += (document.empty() ? "" : "\n") + emit::off_plan(report, of, *options.language);
  }
  outcome.err =
      emit::findings_text(report, *options.language, options.err) + left_out_text(session, of_file);
  return delivered(std::move(outcome), std::move(document), options);
}

} // namespace norma::cli
