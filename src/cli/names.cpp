#include <algorithm>
#include <functional>
#include <set>

#include "cli/command_table.hpp"
#include "cli/commands.hpp"
#include "diag/catalogue.hpp"
#include "text/utf8.hpp"
#include "words/vocabulary.hpp"

namespace norma::cli {
namespace {

using Names = std::vector<std::string>;

/// A kind of names, and how they are had from one protocol for one group of patients.
struct Kind {
  std::string_view name;
  void (*add)(const model::Protocol& protocol, Names& to);
};

constexpr Kind of_files[] = {
    {"views",
     [](const model::Protocol& p, Names& to) {
       for (const model::View& v : p.views)
         to.push_back(v.name);
     }},
    {"series",
     [](const model::Protocol& p, Names& to) {
       for (const model::Series& s : p.series)
         to.push_back(s.name);
     }},
    {"groups",
     [](const model::Protocol& p, Names& to) {
       if (p.group.known()) to.push_back(model::to_text(p.group.get()));
     }},
};
constexpr std::string_view topics = "topics";

Names all_topics() {
  Names out;
  for (const diag::Definition* d : diag::catalogue::all()) {
    out.emplace_back(d->code);
    out.emplace_back(d->name);
  }
  for (const words::Word& w : words::vocabulary())
    out.emplace_back(w.name);
  return out;
}

/// Each once, in their order.
Outcome lines_of(const Names& names) {
  Outcome out;
  std::set<std::string_view> told;
  for (const std::string& name : names) {
    if (told.insert(name).second) out.out += text::printable(name) + "\n";
  }
  return out;
}

} // namespace

std::vector<std::string_view> kinds_of_names() {
  std::vector<std::string_view> out;
  for (const Kind& kind : of_files)
    out.push_back(kind.name);
  out.push_back(topics);
  return out;
}

Outcome names(const Options& options) {
  const std::string& wanted = options.files.front();
  const bool has_files = options.files.size() > 1;
  if (wanted == topics) {
    if (has_files) return could_not_run("topics are norma's own: leave the files out");
    return lines_of(all_topics());
  }
  const auto* kind = std::find_if(std::begin(of_files), std::end(of_files),
                                  [&](const Kind& k) { return k.name == wanted; });
  if (kind == std::end(of_files)) {
    return could_not_run("`" + wanted + "` is no kind of names; there are " +
                         joined(kinds_of_names(), ", "));
  }
  if (!has_files) return could_not_run("give the FILE whose " + wanted + " are wanted");
  Options of = options;
  of.files.erase(of.files.begin());
  of.no_scene = true;
  of.no_project = true; // all that there are
  session::Session session;
  if (auto failed = run_session(session, of, Wanted::findings)) return *failed;
  Names found;
  for (const report::File& file : session.report().files) {
    for (const auto& protocol : file.protocols)
      kind->add(*protocol, found);
  }
  return lines_of(found);
}

} // namespace norma::cli
