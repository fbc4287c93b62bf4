#include <fmt/core.h>

#include "cli/commands.hpp"
#include "emit/comparison.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

/// One file whose bytes lie elsewhere: what it builds on is still looked for around its own place.
class Moved final : public text::Files {
 public:
  Moved(const text::Files& all, std::string path, std::string bytes_at)
      : all_(all), path_(std::move(path)), bytes_at_(std::move(bytes_at)) {}
  [[nodiscard]] text::ReadResult read(const std::string& path) const override {
    return all_.read(path == path_ ? bytes_at_ : path);
  }
  [[nodiscard]] text::LocateResult locate(const std::string& from, const std::string& relative,
                                          const std::string& root) const override {
    return all_.locate(from, relative, root);
  }
  [[nodiscard]] bool is_link(const std::string& path) const override { return all_.is_link(path); }
  [[nodiscard]] std::string root_of(const std::string& path) const override {
    return all_.root_of(path);
  }
  [[nodiscard]] std::optional<text::Above> project_above(const std::string& path) const override {
    return all_.project_above(path);
  }

 private:
  const text::Files& all_;
  std::string path_;
  std::string bytes_at_;
};

/// The kits that are given, else those that the project names for the file, if it is sound.
std::vector<std::string> kits_for(const std::string& path, const Options& options) {
  if (!options.kits.empty() || options.no_project) return options.kits;
  const auto above = options.reading->project_above(path);
  if (!above) return {};
  const auto read = project::read_project(*options.reading, above->path);
  const auto* project = std::get_if<project::Project>(&read);
  return project == nullptr ? std::vector<std::string>() : project->kits_of(above->way);
}

} // namespace

/// As git calls an external diff (gitdiff, GIT_EXTERNAL_DIFF): a path and, but for one that is not
/// merged, old file, hex and mode, and the same of the new one; of a renamed one its new path, too.
/// Whatever comes of it is no failure: git would show no other file then.
Outcome compare_from_git(const Options& options) {
  const std::vector<std::string>& from = options.files;
  const std::string path = from.front();
  const std::string shown = text::printable(path);
  if (from.size() == 1) return {0, fmt::format("{}: not merged yet\n\n", shown), ""};
  if (from.size() != 7 && from.size() != 9)
    return could_not_run("--from-git is for git itself, which calls with 7 or 9 arguments");
  const auto told = [&](std::string_view why) {
    return Outcome{0, fmt::format("{}: {}\n\n", shown, text::printable(why)), ""};
  };
  constexpr std::string_view link = "120000";
  if (from[3] == link || from[6] == link) return told("a link, which norma does not follow");
  const std::string now = from.size() == 9 ? from[7] : path;
  const auto day = day_of(options);
  if (const auto* failed = std::get_if<Outcome>(&day)) return *failed;
  session::CompareRequest request;
  constexpr std::string_view nothing = "/dev/null";
  if (from[1] != nothing) request.before.push_back({path, now});
  if (from[4] != nothing) request.after.push_back({now, now});
  request.kits_before = request.kits_after = kits_for(now, options);
  request.on = std::get<words::Date>(day);
  const Moved before(*options.reading, path, from[1]);
  const Moved after(*options.reading, now, from[4]);
  const auto answer = session::compared(before, after, request);
  const auto* missing = std::get_if<session::NoFile>(&answer);
  if (missing != nullptr && (missing->path == path || missing->path == now))
    return told("cannot be read: " + missing->error.why);
  if (const auto why = why_not_compared(answer)) return told(*why);
  const review::Comparison& all = std::get<session::Compared>(answer).comparison;
  return {0, emit::as_text(emit::comparison(all, *options.language)) + "\n", ""};
}

} // namespace norma::cli
