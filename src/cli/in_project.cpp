#include "cli/in_project.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <map>

#include "cli/commands.hpp"
#include "emit/findings_text.hpp"

namespace norma::cli {
namespace {

/// A name that stands for any file of a folder.
constexpr std::string_view some_file = "any";

/// Files of one folder lie in the same project: the disk is asked once for each.
class Finder {
 public:
  explicit Finder(const Options& options) : options_(options) {}

  /// The project file above, and the way from its folder.
  std::optional<text::Above> above(const std::string& path) {
    if (options_.no_project || is_overlay_without_place(path)) return std::nullopt;
    const text::Files& files = *options_.reading;
    const std::size_t behind = files.name_begins(path);
    const std::string name = path.substr(behind);
    if (name.empty() || name == "." || name == ".." || files.is_link(path))
      return files.project_above(path);
    const auto [entry, fresh] = folders_.try_emplace(path.substr(0, behind));
    if (fresh) entry->second = files.project_above(path.substr(0, behind) + std::string(some_file));
    if (!entry->second) return std::nullopt;
    text::Above out = *entry->second;
    out.way.replace(out.way.size() - some_file.size(), some_file.size(), name);
    return out;
  }

 private:
  /// Standard input without a name lies nowhere.
  [[nodiscard]] bool is_overlay_without_place(const std::string& path) const {
    return path == "-" && is_overlay(options_, path);
  }

  const Options& options_;
  std::map<std::string, std::optional<text::Above>> folders_;
};

/// A folder with a slash behind it, so that a project file in it is found, too.
std::string as_inside(const std::string& folder, const text::Files& files) {
  const bool ends = folder.ends_with('/') || files.name_begins(folder) == folder.size();
  return ends ? folder : folder + "/";
}

class Chooser {
 public:
  explicit Chooser(const Options& options) : options_(options), finder_(options) {}

  ChosenAnswer choose() {
    if (auto press = needs_revisions(options_)) return *std::move(press);
    if (options_.files.empty()) {
      if (auto failed = take_project()) return *std::move(failed);
    } else {
      for (const std::string& argument : options_.files)
        if (auto failed = take(argument)) return *std::move(failed);
    }
    if (broken_) return *std::move(broken_);
    if (out_.protocols.empty() && !options_.may_be_empty)
      return could_not_run(
          fmt::format("all that was asked for is left out by {}", out_.project->path()));
    choose_kits();
    return std::move(out_);
  }

 private:
  /// The whole of the project that one stands in.
  std::optional<Outcome> take_project() {
    const auto above = finder_.above(std::string(some_file));
    if (!above && options_.no_project) return could_not_run("say which files");
    if (!above)
      return could_not_run(fmt::format(
          "say which files: there is no {} here or above that says what there is to look at",
          text::project_file));
    if (auto failed = use(*above, ".")) return failed;
    if (broken_) return std::nullopt;
    const std::string folder = out_.project->folder();
    return take(folder.empty() ? "." : folder);
  }

  /// One argument of the command line.
  std::optional<Outcome> take(const std::string& argument) {
    auto found = protocols_of(argument, options_);
    if (auto* failed = std::get_if<Outcome>(&found)) return std::move(*failed);
    const auto& files = std::get<std::vector<std::string>>(found);
    const bool is_folder = files.size() != 1 || files.front() != argument;
    const auto of_argument =
        is_folder ? finder_.above(as_inside(argument, *options_.reading) + std::string(some_file))
                  : finder_.above(argument);
    for (const std::string& file : files) {
      const auto above = finder_.above(file);
      if (!above) {
        add(file, "");
        continue;
      }
      // A project within another one may be left out by that.
      if (is_folder && of_argument && of_argument->path != above->path) {
        if (auto failed = use(*of_argument, argument)) return failed;
        if (broken_) return std::nullopt;
        const std::string& folder = out_.project->folder();
        if (file.starts_with(folder) &&
            out_.project->leaves_out(file.substr(folder.size()), of_argument->way)) {
          ++out_.left_out;
          continue;
        }
      }
      if (auto failed = use(*above, file)) return failed;
      if (broken_) return std::nullopt;
      // What was asked for lies in this project, or above it.
      const bool inside = of_argument && of_argument->path == above->path;
      if (out_.project->leaves_out(above->way, inside ? of_argument->way : ""))
        ++out_.left_out;
      else
        add(file, above->way);
    }
    return std::nullopt;
  }

  void add(const std::string& file, const std::string& way) {
    out_.protocols.push_back(file);
    out_.ways.push_back(way);
  }

  /// Nothing where it is the project of the others, too; it may be `broken_` then.
  std::optional<Outcome> use(const text::Above& above, const std::string& file) {
    if (project_path_ == above.path) return std::nullopt;
    if (!project_path_.empty())
      return could_not_run(
          fmt::format("{} lies in the project of {}, others in that of {}: ask for "
                      "each by itself, or leave its folder out of the other",
                      file, above.path, project_path_));
    project_path_ = above.path;
    auto read = project::read_project(*options_.reading, above.path);
    if (auto* broken = std::get_if<project::NotRead>(&read))
      broken_ = std::move(*broken);
    else
      out_.project =
          std::make_shared<const project::Project>(std::get<project::Project>(std::move(read)));
    return std::nullopt;
  }

  void choose_kits() {
    out_.kits = options_.kits;
    if (out_.project == nullptr) return;
    for (const std::string& way : out_.ways) {
      session::Own own;
      const bool inside = !way.empty();
      if (!options_.kits.empty()) {
        for (std::size_t i = 0; i < options_.kits.size(); ++i)
          own.kits.push_back(i);
      } else if (inside) {
        for (const std::string& kit : out_.project->kits_of(way))
          own.kits.push_back(place_of(kit));
      }
      if (inside && options_.group.empty()) own.patients = out_.project->groups_of(way);
      out_.own.push_back(std::move(own));
    }
  }

  std::size_t place_of(const std::string& kit) {
    const auto found = std::find(out_.kits.begin(), out_.kits.end(), kit);
    const auto place = static_cast<std::size_t>(found - out_.kits.begin());
    if (found == out_.kits.end()) out_.kits.push_back(kit);
    return place;
  }

  const Options& options_;
  Finder finder_;
  Chosen out_;
  std::string project_path_;
  std::optional<project::NotRead> broken_;
};

} // namespace

ChosenAnswer chosen_of(const Options& options) { return Chooser(options).choose(); }

std::optional<std::vector<std::string>> kits_of_all(const Chosen& chosen) {
  if (chosen.own.empty()) return chosen.kits;
  const bool alike = std::all_of(chosen.own.begin(), chosen.own.end(), [&](const auto& own) {
    return own.kits == chosen.own.front().kits;
  });
  if (!alike) return std::nullopt;
  std::vector<std::string> out;
  for (const std::size_t kit : chosen.own.front().kits)
    out.push_back(chosen.kits[kit]);
  return out;
}

std::optional<Outcome> without_kit(const Chosen& chosen) {
  const auto ended = [&](const std::string& protocol) {
    return could_not_run(
        chosen.project == nullptr
            ? fmt::format(
                  "{} needs a kit: give one with --kit KIT, or name the kits of a folder in "
                  "{}",
                  protocol, text::project_file)
            : fmt::format("{} needs a kit: {} names none for its folder; name one there, or give "
                          "one with --kit KIT",
                          protocol, chosen.project->path()));
  };
  if (chosen.own.empty())
    return chosen.kits.empty() && !chosen.protocols.empty()
               ? std::optional(ended(chosen.protocols.front()))
               : std::nullopt;
  for (std::size_t i = 0; i < chosen.own.size(); ++i)
    if (chosen.own[i].kits.empty()) return ended(chosen.protocols[i]);
  return std::nullopt;
}

std::string left_out_text(const Chosen& chosen) {
  if (chosen.left_out == 0) return "";
  std::string what;
  for (const std::string& one : chosen.project->left_out())
    what += (what.empty() ? "" : ", ") + one;
  return could_not_run(fmt::format("{} leaves out {} of the protocols that were found: {}",
                                   chosen.project->path(), chosen.left_out, what))
      .err;
}

Outcome nothing_looked_at(const project::NotRead& broken) {
  return could_not_run(fmt::format("nothing was looked at: {} must be mended first", broken.path));
}

Outcome project_not_read(const project::NotRead& broken, const Options& options) {
  Outcome out = nothing_looked_at(broken);
  out.err = emit::findings_text(report::findings_alone(broken.findings, broken.sources),
                                *options.language, options.err) +
            out.err;
  return out;
}

std::optional<diag::Severity> fails_on(const Options& options, const Chosen& chosen) {
  const auto of_project = chosen.project == nullptr ? std::nullopt : chosen.project->fail_on();
  if (options.fail_on_given || !of_project)
    return options.never_fail ? std::nullopt : std::optional(options.fail_on);
  switch (*of_project) {
  case project::FailOn::advice: return diag::Severity::advice;
  case project::FailOn::warning: return diag::Severity::warning;
  case project::FailOn::error: return diag::Severity::error;
  case project::FailOn::never: break;
  }
  return std::nullopt;
}

} // namespace norma::cli
