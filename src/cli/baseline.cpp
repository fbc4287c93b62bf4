#include "cli/baseline.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <utility>

#include "emit/frame_words.hpp"
#include "emit/hosts.hpp"
#include "emit/told.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

using emit::Told;
using project::Known;

/// Errors of a text itself are never known: behind them nothing was looked at.
bool is_of_the_text(const diag::Diagnostic& d) {
  const char family = d.definition->code.front();
  return d.severity == diag::Severity::error && family != 'P' && family != 'Q';
}

class Holder {
 public:
  Holder(report::Report& report, const Options& options, const Chosen& chosen)
      : report_(report), options_(options), chosen_(chosen), path_(chosen.project->baseline()) {}

  std::variant<Baseline, Outcome> hold() {
    find_ways();
    const emit::AllTold told = emit::all_told_apart(report_);
    auto before = read();
    if (auto* failed = std::get_if<Outcome>(&before)) return std::move(*failed);
    std::vector<Known>& known = std::get<std::vector<Known>>(before);
    Baseline out;
    out.held.path = path_;
    out.held.folder = folder_in_repository();
    if (options_.write_baseline) {
      auto written = write(told, known);
      if (auto* failed = std::get_if<Outcome>(&written)) return std::move(*failed);
      out.said = std::get<std::string>(std::move(written));
    }
    mark(told, known);
    for (Known& one : known)
      if (found_.count(one.id) == 0 && covers(one)) out.held.gone.push_back(std::move(one));
    std::sort(out.held.gone.begin(), out.held.gone.end());
    return out;
  }

 private:
  /// The ways of all files that were read, from the project's folder.
  void find_ways() {
    for (std::size_t i = 0; i < report_.sources.size(); ++i) {
      const auto file = static_cast<text::FileId>(i);
      const auto above = options_.reading->project_above(report_.sources[file].name());
      const bool inside = above && above->path == chosen_.project->path();
      ways_.push_back(inside ? above->way : "");
      read_.insert(ways_.back());
    }
    asked_.insert(chosen_.ways.begin(), chosen_.ways.end());
    for (const report::Kit& kit : report_.kits)
      kits_.insert(kit.name);
  }

  std::variant<std::vector<Known>, Outcome> read() {
    const text::ReadResult bytes = options_.reading->read(path_);
    if (const auto* error = std::get_if<text::ReadError>(&bytes)) {
      const bool none = error->kind == text::ReadError::Kind::missing;
      if (none && options_.write_baseline) return std::vector<Known>();
      return could_not_run(none ? fmt::format("{} is not there yet: `norma check --write-baseline` "
                                              "writes it",
                                              path_)
                                : fmt::format("cannot read {}: {}", path_, error->why));
    }
    const std::string& text = std::get<std::string>(bytes);
    auto known = project::read_known(text);
    if (auto* all = std::get_if<std::vector<Known>>(&known)) return std::move(*all);
    const auto& error = std::get<project::KnownError>(known);
    // Where all of the project is looked at, nothing of it is needed.
    const bool is_one = text.find(project::known_mark) != std::string::npos;
    if (is_one && options_.write_baseline && whole()) return std::vector<Known>();
    const std::string place = error.line > 0 ? fmt::format("{}:{}", path_, error.line) : path_;
    return could_not_run(fmt::format(
        "{}: {}{}", place, error.why,
        is_one ? "; `norma check --write-baseline`, without files and kits, writes it anew" : ""));
  }

  /// Is all looked at that the project speaks of?
  [[nodiscard]] bool whole() const {
    return options_.files.empty() && options_.kits.empty() && options_.group.empty();
  }

  /// Would this run have found it?
  [[nodiscard]] bool covers(const Known& known) const {
    if (options_.no_scene) return false;
    if (whole()) return true;
    const bool of_file_alone = known.protocol.empty();
    if (of_file_alone ? read_.count(known.file) == 0
                      : !options_.files.empty() && asked_.count(known.file) == 0)
      return false;
    if (!options_.kits.empty() && !known.kit.empty() && kits_.count(known.kit) == 0) return false;
    return options_.group.empty() || known.group.empty() || known.group == options_.group;
  }

  [[nodiscard]] std::string way_of(const Told& told) const {
    if (told.about != nullptr && told.about->file != diag::Subject::none)
      return chosen_.ways[static_cast<std::size_t>(told.about->file)];
    const text::FileId file = emit::file_of(report_, told);
    return file == text::FileId::none ? "" : ways_[static_cast<std::size_t>(file)];
  }

  [[nodiscard]] Known known_of(const Told& told) const {
    const bool about_protocol = told.about != nullptr && told.about->file != diag::Subject::none;
    const auto text = [](std::string_view of) { return std::string(of); };
    Known out;
    out.file = way_of(told);
    out.code = text(told.finding->definition->code);
    if (about_protocol) out.protocol = text(told.names.protocol);
    out.group = text(told.names.group);
    out.view = text(told.names.view);
    out.series = text(told.names.series);
    out.kit = text(told.names.kit);
    out.severity = text(diag::to_text(told.finding->severity));
    out.what = emit::told_text(report_, told);
    out.id = told.id;
    return out;
  }

  /// `known` becomes what is written: what was found, and of what stood there what this run could
  /// not find.
  std::variant<std::string, Outcome> write(const emit::AllTold& told, std::vector<Known>& known) {
    if (report_.findings.dropped() > 0 || told.list.size() > project::most_known)
      return could_not_run("there is more to find than norma keeps: mend some of it first");
    std::set<std::string> before;
    std::vector<Known> now;
    for (Known& one : known) {
      before.insert(one.id);
      if (!covers(one)) now.push_back(std::move(one));
    }
    std::size_t not_written = 0;
    for (const Told& one : told.list) {
      if (!one.finding->accepted.empty()) continue;
      if (is_of_the_text(*one.finding) || way_of(one).empty())
        ++not_written;
      else
        now.push_back(known_of(one));
    }
    std::sort(now.begin(), now.end());
    now.erase(std::unique(now.begin(), now.end()), now.end());
    if (now.size() > project::most_known)
      return could_not_run("there is more to find than norma keeps: mend some of it first");
    std::size_t came = 0;
    for (const Known& one : now)
      came += before.erase(one.id) == 0 ? 1 : 0;
    if (const auto error = text::put_file(path_, project::known_text(now)))
      return could_not_run(fmt::format("cannot write {}: {}", path_, error->why));
    std::string said = fmt::format("{}: known findings now: {} (new in it: {}; taken out: {})",
                                   path_, now.size(), came, before.size());
    if (not_written > 0)
      said += fmt::format("; not written, since a text cannot be read, or lies outside: {}",
                          not_written);
    known = std::move(now);
    return text::printable("norma: " + said) + "\n";
  }

  void mark(const emit::AllTold& told, const std::vector<Known>& known) {
    std::set<std::string> ids;
    for (const Known& one : known)
      ids.insert(one.id);
    std::set<std::pair<const diag::Diagnostic*, diag::Subject>> marked;
    for (const Told& one : told.list) {
      if (ids.count(one.id) == 0 || !one.finding->accepted.empty() || is_of_the_text(*one.finding))
        continue;
      found_.insert(one.id);
      marked.emplace(one.finding, subject_of(one.about));
    }
    report_.findings.know([&](const diag::Diagnostic& d, const diag::Subject* about) {
      return marked.count({&d, subject_of(about)}) == 1;
    });
    report_.index();
  }

  /// The same for a file that is asked for twice.
  [[nodiscard]] diag::Subject subject_of(const diag::Subject* about) const {
    diag::Subject out = about == nullptr ? diag::Subject{} : *about;
    out.file = report_.first_of(out.file);
    return out;
  }

  /// The way from the repository's folder to the project's.
  [[nodiscard]] std::string folder_in_repository() const {
    namespace fs = std::filesystem;
    std::error_code error;
    const fs::path folder =
        fs::canonical(chosen_.project->folder().empty() ? "." : chosen_.project->folder(), error);
    if (error) return "";
    const std::string root = options_.reading->root_of(chosen_.project->path());
    const std::string way = folder.lexically_relative(root).generic_string();
    return way.empty() || way == "." || way.starts_with("..") ? "" : way + "/";
  }

  report::Report& report_;
  const Options& options_;
  const Chosen& chosen_;
  std::string path_;
  std::vector<std::string> ways_; // of the report's sources
  std::set<std::string> read_;
  std::set<std::string> asked_;
  std::set<std::string> kits_;
  std::set<std::string> found_; // ids of what is known and was found again
};

} // namespace

std::optional<Outcome> without_baseline(const Options& options, const Chosen& chosen) {
  if (!options.baseline && !options.write_baseline) return std::nullopt;
  const std::string option = options.write_baseline ? "--write-baseline" : "--baseline";
  if (chosen.project == nullptr)
    return could_not_run(fmt::format("{} needs a project file: {} at the top of the tree, with a "
                                     "line such as `baseline: known_findings.json`",
                                     option, text::project_file));
  const std::string path = chosen.project->baseline();
  if (path.empty())
    return could_not_run(fmt::format("{} names no file of known findings: write a line such as "
                                     "`baseline: known_findings.json` into it",
                                     chosen.project->path()));
  if (!options.write_baseline) return std::nullopt;
  if (options.reading->is_fixed(path))
    return could_not_run(fmt::format("{} is of a revision, where nothing is written", path));
  if (options.no_scene)
    return could_not_run("--write-baseline with --no-scene would write what is found without "
                         "looking closely: leave --no-scene out");
  return std::nullopt;
}

std::variant<Baseline, Outcome> hold_against_known(report::Report& report, const Options& options,
                                                   const Chosen& chosen) {
  return Holder(report, options, chosen).hold();
}

std::string baseline_text(const Baseline& baseline, std::size_t known, const Options& options) {
  namespace frame = emit::frame;
  const wording::Language& in = *options.language;
  const auto line = [&](const diag::Said& said) {
    return emit::fitted(text::printable(in.text(said)), options.out, 2) + "\n";
  };
  const std::string& path = baseline.held.path;
  std::string out;
  if (known > 0) out += line(frame::known_not_shown(static_cast<int>(known), path));
  constexpr std::size_t most_told = 50;
  std::size_t told = 0;
  for (const Known& gone : baseline.held.gone) {
    if (++told > most_told) break;
    out += line(frame::gone_one(gone.code, gone.file, gone.what));
  }
  if (told > 0) out += line(frame::gone_all(static_cast<int>(baseline.held.gone.size()), path));
  return out.empty() || options.format == Format::lines ? out : out + "\n";
}

} // namespace norma::cli
