#include <fmt/core.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "text/utf8.hpp"

namespace norma::cli {
namespace {

constexpr std::string_view pattern = "*.norma";
constexpr std::string_view attribute = "diff=norma";
constexpr std::string_view attributes_file = ".gitattributes";

struct Setting {
  std::string_view section; // of its key
  std::string_view name;
  std::string_view value;
};

std::vector<Setting> settings_of(const Options& options) {
  std::vector<Setting> out{{"diff", "command", command_for_git},
                           {"difftool", "cmd", "norma compare \"$LOCAL\" \"$REMOTE\""}};
  if (options.textconv) out.insert(out.begin() + 1, {"diff", "textconv", "norma show --plain"});
  return out;
}

/// A value as it stands in a file of git's.
std::string in_file(std::string_view value) {
  std::string out;
  for (const char c : value) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string as_text(const Options& options) {
  std::string out = fmt::format("# {}, at the top of the work tree:\n{} {}\n\n", attributes_file,
                                pattern, attribute);
  out += "# .git/config, or each by `git config`:\n";
  std::string_view section;
  for (const Setting& s : settings_of(options)) {
    if (s.section != section) out += fmt::format("[{} \"norma\"]\n", s.section);
    section = s.section;
    out += fmt::format("\t{} = {}\n", s.name, in_file(s.value));
  }
  if (!options.textconv)
    out += "\n# For git log -p and git show, too, where protocols build on no other, --textconv "
           "adds a\n"
           "# line. git hands the text over without its folder, so that bases are not found.\n";
  return out;
}

/// What the file says of the pattern: nothing, that it is norma's, or something else.
enum class Said { nothing, norma, other };
Said said_in(std::string_view text) {
  Said out = Said::nothing; // the last line counts
  while (!text.empty()) {
    const std::size_t stop = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, stop);
    text.remove_prefix(std::min(stop + 1, text.size()));
    std::vector<std::string_view> words;
    while (true) {
      const std::size_t from = line.find_first_not_of(" \t\r");
      if (from == std::string_view::npos) break;
      line.remove_prefix(from);
      const std::size_t to = std::min(line.find_first_of(" \t\r"), line.size());
      words.push_back(line.substr(0, to));
      line.remove_prefix(to);
    }
    if (words.empty() || words.front() != pattern) continue;
    for (const std::string_view word : words) {
      if (word == attribute) {
        out = Said::norma;
      } else if (word == "diff" || word == "-diff" || word == "!diff" || word == "binary" ||
                 word.starts_with("diff=")) {
        out = Said::other;
      }
    }
  }
  return out;
}

/// Adds the line to the attributes; what is there stays. Why not, or what came of it.
Outcome put_attribute(const std::string& top) {
  const std::string path = fmt::format("{}/{}", top, attributes_file);
  const text::DiskFiles disk;
  std::string text;
  if (text::is_there(path)) {
    // It may lead anywhere, and git does not follow it either.
    if (disk.is_link(path))
      return could_not_run(fmt::format("{} is a link: it is not written", path));
    auto read = disk.read(path);
    if (const auto* error = std::get_if<text::ReadError>(&read))
      return could_not_run(fmt::format("cannot read {}: {}", path, error->why));
    text = std::move(std::get<std::string>(read));
  }
  const std::string shown = text::printable(path);
  switch (said_in(text)) {
  case Said::norma: return {0, fmt::format("{}: as it should be\n", shown), ""};
  case Said::other:
    return could_not_run(
        fmt::format("{} already says how {} is compared: change that line by hand to `{} {}`", path,
                    pattern, pattern, attribute));
  case Said::nothing: break;
  }
  if (!text.empty() && text.back() != '\n') text += '\n';
  text += fmt::format("{} {}\n", pattern, attribute);
  if (const auto error = text::put_file(path, text))
    return could_not_run(fmt::format("cannot write {}: {}", path, error->why));
  return {0, fmt::format("{}: a line added\n", shown), ""};
}

} // namespace

Outcome git_setup(const Options& options) {
  if (!options.write) return {0, as_text(options), ""};
  if (!options.repository.set) {
    Outcome out = could_not_run("to write into a repository norma needs the program norma-press "
                                "beside it, which is not there");
    out.needs_press = true;
    return out;
  }
  const auto top = options.repository.work_tree();
  if (const auto* error = std::get_if<text::ReadError>(&top)) return could_not_run(error->why);
  Outcome outcome = put_attribute(std::get<std::string>(top));
  if (outcome.code != 0) return outcome;
  std::vector<std::pair<std::string, std::string>> settings;
  for (const Setting& s : settings_of(options))
    settings.emplace_back(fmt::format("{}.norma.{}", s.section, s.name), s.value);
  const auto changed = options.repository.set(settings);
  if (const auto* error = std::get_if<text::ReadError>(&changed)) return could_not_run(error->why);
  outcome.out +=
      std::get<std::size_t>(changed) == 0
          ? "the repository's configuration: as it should be\n"
          : fmt::format("the repository's configuration: {} set\n", std::get<std::size_t>(changed));
  return outcome;
}

} // namespace norma::cli
