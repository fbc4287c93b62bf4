#include <fmt/core.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "cli/pages.hpp"
#include "diag/catalogue.hpp"
#include "emit/explain_view.hpp"
#include "emit/plan_json.hpp"
#include "text/suggest.hpp"
#include "words/vocabulary.hpp"

namespace norma::cli {
namespace {

std::string places_text(unsigned places) {
  std::string out;
  const auto add = [&](unsigned bit, std::string_view name) {
    if ((places & bit) != 0) out += fmt::format("{}{}", out.empty() ? "" : ", ", name);
  };
  add(words::in_file, "the file");
  add(words::in_protocol, "a protocol");
  add(words::in_every, "every mouth view");
  add(words::in_view, "a view");
  return out;
}

std::string word_page(const words::Word& w) {
  std::string out = fmt::format("{}: {}\n\n", w.name, w.help);
  out += fmt::format("Stands in: {}\n", places_text(w.places));
  out += fmt::format("Example:   {}\n", w.example);
  if (!w.clauses.empty()) out += "\nHow it may look, part by part between commas:\n";
  for (const words::Clause& c : w.clauses) {
    out += fmt::format("  {}{}{}{}{}\n", w.name, w.key.empty() ? "" : fmt::format(" ({})", w.key),
                       " ", c.pattern, c.required ? "   must be there" : "");
  }
  return out;
}

Outcome explain_topic(const std::string& topic) {
  if (const diag::Definition* d = diag::catalogue::find(topic)) {
    for (const Page& page : pages()) {
      if (page.code == d->code) return {0, std::string(page.text), ""};
    }
    return could_not_run(fmt::format("there is no page for {}", d->code));
  }
  for (const words::Word& w : words::vocabulary()) {
    if (w.name == topic) return {0, word_page(w), ""};
  }
  std::vector<std::string_view> names;
  for (const diag::Definition* d : diag::catalogue::all()) {
    names.push_back(d->name);
    names.push_back(d->code);
  }
  for (const words::Word& w : words::vocabulary())
    names.push_back(w.name);
  const auto near = text::nearest(topic, names);
  return could_not_run(fmt::format("there is no finding and no word `{}`{}", topic,
                                   near ? fmt::format("; did you mean `{}`?", *near) : ""));
}

} // namespace

Outcome explain(const Options& options) {
  if (options.files.size() == 1) return explain_topic(options.files[0]);
  Options one_file = options;
  one_file.files.resize(1);
  const std::string& view = options.files[1];
  const text::DiskFiles disk;
  session::Session session(disk);
  if (auto failed = run_session(session, one_file)) return *failed;
  Outcome outcome;
  for (const session::Result& r : session.results()) {
    const plan::ViewPlan* plan = r.plan.view(view);
    if (plan == nullptr) {
      std::vector<std::string_view> names;
      for (const plan::ViewPlan& v : r.plan.views)
        names.push_back(v.view->name);
      const auto near = text::nearest(view, names);
      return could_not_run(fmt::format("{} has no view `{}`{}", r.protocol_path, view,
                                       near ? fmt::format("; did you mean `{}`?", *near) : ""));
    }
    outcome.out +=
        options.format == Format::json ? emit::view_json(*plan) : emit::explain_view(*plan);
  }
  if (session.results().empty()) {
    return could_not_run(fmt::format(
        "{} holds no protocol that can be read; `norma check` tells why", one_file.files[0]));
  }
  return outcome;
}

} // namespace norma::cli
