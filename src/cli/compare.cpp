#include <fmt/core.h>

#include <algorithm>

#include "cli/printing.hpp"
#include "diag/catalogue.hpp"
#include "emit/comparison.hpp"
#include "emit/findings_text.hpp"
#include "session/documents.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

struct OneSide {
  std::vector<session::Named> files;
  /// Of their project, where it names the same for all of them.
  std::optional<std::vector<std::string>> kits;
  std::string project; // "" for none
};

/// The protocols of one side: a file, or all below a folder or of a revision, each by its name
/// below it; a file alone has none.
std::variant<OneSide, Outcome> side_of(const Options& options, const std::string& path) {
  Options of_side = options;
  of_side.files = {path};
  of_side.kits.clear();
  of_side.may_be_empty = true; // all of them came, or went
  auto answer = chosen_of(of_side);
  if (auto* failed = std::get_if<Outcome>(&answer)) return std::move(*failed);
  if (const auto* broken = std::get_if<project::NotRead>(&answer))
    return project_not_read(*broken, options);
  const Chosen& chosen = std::get<Chosen>(answer);
  OneSide out;
  for (const std::string& file : chosen.protocols)
    out.files.push_back({file, name_below(path, file)});
  out.kits = kits_of_all(chosen);
  if (chosen.project != nullptr) out.project = chosen.project->path();
  return out;
}

/// What protocols of a folder may build on lies below it, where no repository is around it.
std::string root_of_side(const Options& options, const std::string& path) {
  if (!options.root.empty() || !text::is_folder(path)) return options.root;
  return options.reading->root_of(path + "/any.norma");
}

} // namespace

std::optional<std::string> why_not_compared(const session::CompareAnswer& answer) {
  if (const auto* missing = std::get_if<session::NoFile>(&answer))
    return fmt::format("cannot read {}: {}", missing->path, missing->error.why);
  if (const auto* kit = std::get_if<session::NoKit>(&answer))
    return fmt::format("{0} cannot be read as a kit; `norma kit {0}` says why", kit->path);
  if (std::holds_alternative<session::NoGroup>(answer)) return "nothing is said for this group";
  return std::nullopt;
}

std::variant<session::Compared, Outcome> compared(const Options& options, const std::string& before,
                                                  const std::string& after) {
  auto old_side = side_of(options, before);
  if (auto* failed = std::get_if<Outcome>(&old_side)) return std::move(*failed);
  auto new_side = side_of(options, after);
  if (auto* failed = std::get_if<Outcome>(&new_side)) return std::move(*failed);
  OneSide& was = std::get<OneSide>(old_side);
  OneSide& is = std::get<OneSide>(new_side);
  session::CompareRequest request;
  request.before = std::move(was.files);
  request.after = std::move(is.files);
  if (request.before.empty() && request.after.empty())
    return could_not_run(
        fmt::format("there is no protocol (.norma) below {}, and none below {}", before, after));
  // Two files are the same protocol whatever they are called.
  const auto is_file = [](const std::vector<session::Named>& side) {
    return !side.empty() && side.front().name.empty();
  };
  const bool two_files = is_file(request.before) && is_file(request.after);
  for (auto* side : {&request.before, &request.after}) {
    if (is_file(*side))
      side->front().name = two_files ? request.after.front().path : side->front().path;
  }
  request.kits_after = options.kits;
  request.kits_before = options.old_kits.empty() ? options.kits : options.old_kits;
  if (options.kits.empty() && options.old_kits.empty() && is.kits) {
    request.kits_after = *is.kits;
    // Kits change from one revision of a project to the next, not from one of its folders to
    // another. Each is held against the one in its place.
    const bool has_own =
        was.project != is.project && was.kits && was.kits->size() == is.kits->size();
    request.kits_before = has_own ? *was.kits : *is.kits;
  }
  if (request.kits_before.size() != request.kits_after.size())
    return could_not_run(fmt::format(
        "there are {} of --old-kit and {} of --kit: each kit of before is held against the kit of "
        "after in the same place",
        request.kits_before.size(), request.kits_after.size()));
  const auto day = day_of(options);
  if (const auto* failed = std::get_if<Outcome>(&day)) return *failed;
  request.on = std::get<words::Date>(day);
  request.root_before = root_of_side(options, before);
  request.root_after = root_of_side(options, after);
  request.group = options.group;
  auto answer = session::compared(*options.reading, *options.reading, request);
  if (std::holds_alternative<session::NoGroup>(answer))
    return no_such_group(fmt::format("{} and {}", before, after), options.group, {});
  if (const auto why = why_not_compared(answer)) return could_not_run(*why);
  return std::get<session::Compared>(std::move(answer));
}

Outcome compare(const Options& options) {
  if (options.from_git) return compare_from_git(options);
  if (options.files.size() != 2)
    return could_not_run("give two files, or two folders: OLD and NEW");
  const Format format = format_of(options, Format::text);
  if (auto press = needs_press(format, options)) return *press;
  auto answer = compared(options, options.files[0], options.files[1]);
  if (auto* failed = std::get_if<Outcome>(&answer)) return std::move(*failed);
  const review::Comparison& all = std::get<session::Compared>(answer).comparison;
  Outcome outcome;
  // Of what cannot be read nobody knows how grave it is.
  const bool unread = std::any_of(all.protocols.begin(), all.protocols.end(),
                                  [](const auto& p) { return p.unread || p.not_read; });
  if (options.fail_on_class && (unread || all.gravest() >= *options.fail_on_class))
    outcome.code = 1;
  if (format == Format::json)
    return delivered(std::move(outcome), emit::comparison_json(all), options);
  if (format == Format::html)
    return delivered(std::move(outcome), emit::comparison_html(all, *options.language), options);
  return documents_to(std::move(outcome), {emit::comparison(all, *options.language)}, format,
                      options);
}

Outcome affected(const Options& options) {
  if (options.files.size() != 2) return could_not_run("give two folders: OLD and NEW");
  const Format format = format_of(options, Format::text);
  if (auto press = needs_press(format, options)) return *press;
  auto answer = compared(options, options.files[0], options.files[1]);
  if (auto* failed = std::get_if<Outcome>(&answer)) return std::move(*failed);
  const review::Comparison& all = std::get<session::Compared>(answer).comparison;
  if (format == Format::json) return delivered({}, emit::comparison_json(all), options);
  return documents_to({}, {emit::affected(all, *options.language)}, format, options);
}

Outcome follow(const Options& options) {
  const text::DiskFiles disk;
  const std::string& file = options.files.front();
  const auto followed = session::follow(disk, file, options.root);
  if (followed.run->unreadable)
    return could_not_run(fmt::format("cannot read {}: {}", file, followed.run->unreadable->why));
  Outcome outcome;
  // What is written in the place of a fingerprint goes with this.
  const auto& found = followed.run->report.findings.all();
  const bool broken = std::any_of(found.begin(), found.end(), [](const diag::Diagnostic& d) {
    return d.severity == diag::Severity::error && d.definition != &diag::catalogue::no_fingerprint;
  });
  if (!followed.followed || broken) {
    outcome.err = emit::findings_text(followed.run->report, *options.language, options.err);
    outcome.err +=
        fmt::format("{}: left as it is: {}\n", text::printable(file),
                    broken ? "it must be read whole first" : "it builds on no other protocol");
    outcome.code = 1;
    return outcome;
  }
  const session::Followed& f = *followed.followed;
  if (!options.since.empty()) {
    auto answer = compared(options, options.since, file);
    if (auto* failed = std::get_if<Outcome>(&answer)) return std::move(*failed);
    outcome.out = emit::as_text(emit::comparison(std::get<session::Compared>(answer).comparison,
                                                 *options.language)) +
                  "\n";
  }
  const std::string name = text::printable(file);
  if (!f.was.empty() && f.now.starts_with(f.was.substr(0, f.now.size()))) {
    outcome.out += fmt::format("{}: is made for {} as of {}: nothing to do\n", name, f.base, f.now);
    return outcome;
  }
  if (const auto error = text::replace_file(file, f.text))
    return could_not_run(fmt::format("cannot write {}: {}", file, error->why));
  outcome.out += f.was.empty()
                     ? fmt::format("{}: is made for {} as of {} now\n", name, f.base, f.now)
                     : fmt::format("{}: is made for {} as of {} now; it was as of {}\n", name,
                                   f.base, f.now, f.was);
  return outcome;
}

} // namespace norma::cli
