#include "revisions/pipes.hpp"

#include <algorithm>
#include <filesystem>
#include <string_view>
#include <vector>

#include "text/files.hpp"

namespace norma::revisions {
namespace {

namespace fs = std::filesystem;

bool is_pipe(const fs::path& path) {
  std::error_code error;
  return fs::is_other(path, error); // of what a link leads to
}

std::string text_of(const fs::path& path) {
  const text::ReadResult read = text::DiskFiles().read(path.string());
  const auto* text = std::get_if<std::string>(&read);
  return text == nullptr ? std::string() : *text;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blank = " \t\r\n";
  const std::size_t from = std::min(text.find_first_not_of(blank), text.size());
  text.remove_prefix(from);
  return text.substr(0, text.find_last_not_of(blank) + 1);
}

class Search {
 public:
  bool in_repository(const fs::path& folder) {
    if (in_folder(folder)) return true;
    const std::string common(trimmed(text_of(folder / "commondir")));
    return !common.empty() && in_folder(folder / common);
  }

 private:
  bool in_folder(const fs::path& folder) {
    for (const char* name : {"HEAD", "commondir", "config", "config.worktree", "gitdir",
                             "packed-refs", "shallow", "objects/info/alternates"}) {
      if (is_pipe(folder / name)) return true;
    }
    return below(folder / "refs") || below(folder / "logs") || in_settings(folder / "config", 0) ||
           in_settings(folder / "config.worktree", 0);
  }

  bool below(const fs::path& folder) {
    std::error_code error;
    fs::recursive_directory_iterator at(folder, error);
    for (; !error && at != fs::recursive_directory_iterator(); at.increment(error)) {
      if (is_pipe(at->path())) return true;
      if (++seen_ > most_) return false; // a revision is then looked for without
    }
    return false;
  }

  /// Each `path = ...`, whatever section it stands in: what is included is read, too.
  bool in_settings(const fs::path& file, int depth) {
    constexpr int deepest = 10; // as far as libgit2 follows
    if (is_pipe(file)) return true;
    if (depth > deepest || ++settings_ > most_settings_) return false;
    const std::string text = text_of(file);
    std::string_view left = text;
    while (!left.empty()) {
      const std::size_t stop = std::min(left.find('\n'), left.size());
      std::string_view line = trimmed(left.substr(0, stop));
      left.remove_prefix(std::min(stop + 1, left.size()));
      // The section may stand before it on the line.
      if (const std::size_t section = line.find(']');
          line.starts_with('[') && section != std::string_view::npos)
        line = trimmed(line.substr(section + 1));
      const std::size_t equals = line.find('=');
      if (equals == std::string_view::npos) continue;
      std::string key(trimmed(line.substr(0, equals)));
      std::transform(key.begin(), key.end(), key.begin(),
                     [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
      if (key != "path") continue;
      std::string value(trimmed(line.substr(equals + 1)));
      std::erase(value, '"');
      if (!value.empty() && in_settings(file.parent_path() / value, depth + 1)) return true;
    }
    return false;
  }

  static constexpr std::size_t most_ = 100000;
  static constexpr std::size_t most_settings_ = 100;
  std::size_t seen_ = 0;
  std::size_t settings_ = 0;
};

/// The nearest folder that may be a repository's.
fs::path nearest() {
  std::error_code error;
  for (fs::path at = fs::current_path(error); !error; at = at.parent_path()) {
    const fs::path inside = at / ".git";
    if (fs::is_directory(inside, error)) return inside;
    if (fs::is_regular_file(inside, error)) {
      const std::string text = text_of(inside);
      constexpr std::string_view start = "gitdir:";
      if (text.starts_with(start))
        return at / std::string(trimmed(std::string_view(text).substr(start.size())));
    }
    if (fs::exists(at / "objects", error) && fs::exists(at / "refs", error)) return at;
    if (at == at.parent_path()) break;
    error.clear();
  }
  return {};
}

} // namespace

bool pipes_in_repository(const std::string& given) {
  Search search;
  if (given.empty()) {
    const fs::path folder = nearest();
    return !folder.empty() && search.in_repository(folder);
  }
  return search.in_repository(given) || search.in_repository(fs::path(given) / ".git");
}

} // namespace norma::revisions
