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

std::string word_page(const words::Word& w) {
  std::string out = fmt::format("{}: {}\n\n", w.name, w.help);
  out += fmt::format("Stands in: {}\n", words::places_text(w.places));
  out += fmt::format("Example:   {}\n", w.example);
  if (!w.absence.empty()) out += fmt::format("Taken away: no {}\n", w.absence);
  if (w.clauses.empty()) return out;
  const std::string head = w.key.empty() ? std::string(w.name)
                                         : fmt::format("{} {}", w.name, words::pattern_text(w.key));
  out += fmt::format("\nBehind `{}` may stand, parted by commas:\n", head);
  for (const words::Clause& c : w.clauses) {
    out += "  " + words::pattern_text(c.pattern);
    for (const std::string& note : words::clause_notes(w, c))
      out += "   (" + note + ")";
    out += "\n";
  }
  return out + "( a | b ) is one of them; [ ] may be left out; CAPITALS stand for a value.\n";
}

/// A page for reading in a terminal: its code blocks are set in, without their fences.
std::string terminal_page(std::string_view page) {
  std::string out;
  bool inside = false;
  while (!page.empty()) {
    const std::size_t stop = std::min(page.find('\n'), page.size() - 1);
    const std::string_view line = page.substr(0, stop + 1);
    page.remove_prefix(stop + 1);
    if (line.starts_with("```")) {
      inside = !inside;
      const std::size_t file = line.find("file=");
      if (file != std::string_view::npos) {
        out += fmt::format("{}:\n\n", line.substr(file + 5, line.size() - file - 6));
      }
    } else {
      if (inside && line != "\n") out += "    ";
      out += line;
    }
  }
  return out;
}

Outcome explain_topic(const std::string& topic) {
  if (const diag::Definition* d = diag::catalogue::find(topic)) {
    for (const Page& page : pages()) {
      if (page.code == d->code) return {0, terminal_page(page.text), ""};
    }
    return could_not_run(fmt::format("there is no page for {}", d->code));
  }
  std::string page; // `for` is a word of a protocol and of a view
  for (const words::Word& w : words::vocabulary()) {
    if (w.name == topic) page += (page.empty() ? "" : "\n") + word_page(w);
  }
  if (!page.empty()) return {0, page, ""};
  if (topic.ends_with(".norma"))
    return could_not_run(
        fmt::format("which view of it? `norma explain {} VIEW`; to look at all: `norma check`, "
                    "`norma plan`",
                    topic));
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
  session::Session session;
  if (auto failed = run_session(session, one_file)) return *failed;
  if (auto failed = kit_not_read(session)) return *failed;
  Outcome outcome;
  for (const report::Held& r : session.report().held) {
    const plan::ViewPlan* plan = r.plan.view(view);
    if (plan == nullptr) {
      std::vector<std::string_view> names;
      for (const plan::ViewPlan& v : r.plan.views)
        names.push_back(v.view->name);
      return no_such_view(std::string(session.report().names(r.about).file), view, names);
    }
    if (options.format != Format::json) outcome.out += emit::explain_view(*plan, *options.language);
  }
  if (options.format == Format::json)
    outcome.out = emit::plan_json(session.report(), *options.language, view);
  if (session.report().held.empty()) {
    return could_not_run(fmt::format(
        "{} holds no protocol that can be read; `norma check` tells why", one_file.files[0]));
  }
  return outcome;
}

} // namespace norma::cli
