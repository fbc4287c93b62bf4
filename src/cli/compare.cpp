#include <fmt/core.h>

#include <algorithm>

#include "cli/printing.hpp"
#include "emit/comparison.hpp"
#include "session/compared.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

/// The protocols of one side: a file, or all below a folder or of a revision, each by its name
/// below it; a file alone has none.
std::variant<std::vector<session::Named>, Outcome> side_of(const Options& options,
                                                           const std::string& path) {
  Options of_side = options;
  of_side.files = {path};
  auto files = protocol_files(of_side);
  if (auto* failed = std::get_if<Outcome>(&files)) return std::move(*failed);
  std::vector<session::Named> out;
  for (const std::string& file : std::get<std::vector<std::string>>(files))
    out.push_back({file, name_below(path, file)});
  return out;
}

} // namespace

Outcome compare(const Options& options) {
  if (options.from_git) return compare_from_git(options);
  if (options.files.size() != 2)
    return could_not_run("give two files, or two folders: OLD and NEW");
  const Format format = format_of(options, Format::text);
  if (auto press = needs_press(format, options)) return *press;
  session::CompareRequest request;
  for (std::size_t i = 0; i < 2; ++i) {
    auto side = side_of(options, options.files[i]);
    if (auto* failed = std::get_if<Outcome>(&side)) return std::move(*failed);
    auto& named = std::get<std::vector<session::Named>>(side);
    (i == 0 ? request.before : request.after) = std::move(named);
  }
  // Two files are the same protocol whatever they are called.
  const bool two_files = request.before.front().name.empty() && request.after.front().name.empty();
  for (auto* side : {&request.before, &request.after}) {
    if (side->front().name.empty())
      side->front().name = two_files ? request.after.front().path : side->front().path;
  }
  request.kits_after = options.kits;
  request.kits_before = options.old_kits.empty() ? options.kits : options.old_kits;
  if (request.kits_before.size() != request.kits_after.size())
    return could_not_run(fmt::format(
        "--old-kit is given {} times and --kit {} times: each kit of before is held against the "
        "kit of after in the same place",
        request.kits_before.size(), request.kits_after.size()));
  const auto day = day_of(options);
  if (const auto* failed = std::get_if<Outcome>(&day)) return *failed;
  request.on = std::get<words::Date>(day);
  request.root = options.root;
  request.group = options.group;
  auto answer = session::compared(*options.reading, *options.reading, request);
  if (const auto* missing = std::get_if<session::NoFile>(&answer))
    return could_not_run(fmt::format("cannot read {}: {}", missing->path, missing->error.why));
  const review::Comparison& all = std::get<session::Compared>(answer).comparison;
  Outcome outcome;
  if (options.fail_on_class && all.gravest() >= *options.fail_on_class) outcome.code = 1;
  if (format == Format::json)
    return delivered(std::move(outcome), emit::comparison_json(all), options);
  if (format == Format::html)
    return delivered(std::move(outcome), emit::comparison_html(all, *options.language), options);
  return documents_to(std::move(outcome), {emit::comparison(all, *options.language)}, format,
                      options);
}

} // namespace norma::cli
