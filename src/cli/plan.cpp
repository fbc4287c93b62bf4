#include <fmt/core.h>

#include "cli/commands.hpp"
#include "emit/frame_words.hpp"
#include "emit/plan_json.hpp"
#include "emit/view_picture.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

/// The drawing of one view; how it ended where there is none.
std::optional<Outcome> draw(const session::Session& session, const Options& options,
                            std::string& document) {
  if (session.report().held.size() != 1) {
    return could_not_run("--picture draws one view: give one protocol and one kit (and --for where "
                         "the protocol speaks of several groups)");
  }
  const plan::Plan& plan = session.report().held.front().plan;
  const plan::ViewPlan* view = plan.view(options.picture);
  if (view == nullptr) {
    std::vector<std::string_view> names;
    for (const plan::ViewPlan& v : plan.views)
      names.push_back(v.view->name);
    return no_such_view(options.files.front(), options.picture, names);
  }
  document = emit::view_picture(*view, *options.language);
  if (!document.empty()) return std::nullopt;
  std::string why;
  for (const plan::OpenQuestion& q : view->open)
    why += "\n  " + options.language->text(emit::frame::missing(q.what, q.missing));
  return Outcome{2, "",
                 fmt::format("norma: view {} cannot be drawn; not known:{}\n",
                             text::printable(options.picture), text::printable(why, true))};
}

} // namespace

Outcome plan(const Options& options) {
  session::Session session;
  Outcome outcome;
  if (auto failed = run_plans(session, options, outcome, Wanted::plans_and_fingerprints))
    return *failed;
  std::string document;
  if (!options.picture.empty()) {
    if (auto failed = draw(session, options, document)) return *failed;
  } else {
    document = emit::plan_json(session.report(), *options.language);
  }
  return delivered(std::move(outcome), std::move(document), options);
}

} // namespace norma::cli
