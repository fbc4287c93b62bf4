#include <filesystem>
#include <string_view>

#include "revisions/repository.hpp"
#include "revisions/revisions.hpp"

namespace norma::revisions {
namespace {

namespace fs = std::filesystem;
using text::ReadError;
using Kind = text::ReadError::Kind;

/// Nobody asked for a file or a revision here.
ReadError told(ReadError error) {
  if (error.kind == Kind::missing) error.why = "the current folder lies in no repository";
  return error;
}

} // namespace

std::variant<std::string, ReadError> work_tree() {
  auto opened = open_repository();
  if (auto* error = std::get_if<ReadError>(&opened)) return told(std::move(*error));
  const char* top = git_repository_workdir(std::get<Repository>(opened).get());
  if (top == nullptr) return ReadError{Kind::missing, "the repository has no work tree"};
  // The configuration may name any folder as the work tree.
  std::error_code error;
  const fs::path folder = fs::canonical(top, error);
  const fs::path here = error ? fs::path() : fs::current_path(error);
  if (error) return ReadError{Kind::unreadable, error.message()};
  const fs::path way = here.lexically_relative(folder);
  if (way.empty() || *way.begin() == "..")
    return ReadError{Kind::outside, "the current folder is not in the repository's work tree"};
  return folder.string();
}

std::variant<std::size_t, ReadError> set(const std::vector<Setting>& settings) {
  auto opened = open_repository();
  if (auto* error = std::get_if<ReadError>(&opened)) return told(std::move(*error));
  git_repository* const repository = std::get<Repository>(opened).get();
  const fs::path file = fs::path(git_repository_commondir(repository)) / "config";
  std::error_code error;
  if (fs::is_symlink(file, error))
    return ReadError{Kind::unreadable, "its configuration is a link to another place"};
  git_config* config = nullptr;
  int code = git_repository_config(&config, repository);
  const Config held(config);
  std::size_t changed = 0;
  for (const auto& [key, value] : settings) {
    if (code != 0) break;
    git_buf before{};
    const bool same = git_config_get_string_buf(&before, config, key.c_str()) == 0 &&
                      value == std::string_view(before.ptr, before.size);
    git_buf_dispose(&before);
    if (same) continue;
    code = git_config_set_string(config, key.c_str(), value.c_str());
    ++changed;
  }
  if (code != 0)
    return ReadError{Kind::unreadable, "the configuration of the repository cannot be written"};
  return changed;
}

} // namespace norma::revisions
