#include "revisions/repository.hpp"

#include <fmt/core.h>

#include <cstdlib>
#include <iterator>
#include <mutex>
#include <optional>
#include <string_view>

#include "revisions/guard.hpp"
#include "revisions/pipes.hpp"

namespace norma::revisions {
namespace {

using text::ReadError;
using Kind = text::ReadError::Kind;

constexpr int levels[] = {GIT_CONFIG_LEVEL_SYSTEM, GIT_CONFIG_LEVEL_XDG, GIT_CONFIG_LEVEL_GLOBAL,
                          GIT_CONFIG_LEVEL_PROGRAMDATA};

/// Where settings of the machine and the user are looked for; null is where git does.
void look_for_settings(const char* where) {
  for (const int level : levels)
    git_libgit2_opts(GIT_OPT_SET_SEARCH_PATH, level, where);
}

/// A folder that holds nothing; with none at all libgit2 stumbles over `~` in an `include`.
constexpr const char* nowhere = "/dev/null";

void start_library() {
  static const bool started = [] {
    git_libgit2_init();
    look_for_settings(nowhere);
    // These say nothing about how trees and files are kept.
    const char* harmless[] = {"partialclone", "preciousobjects", "worktreeconfig"};
    git_libgit2_opts(GIT_OPT_SET_EXTENSIONS, harmless, std::size(harmless));
    return true;
  }();
  static_cast<void>(started);
}

int error_class() {
  const git_error* last = git_error_last();
  return last == nullptr ? GIT_ERROR_NONE : last->klass;
}

const char* variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr || *value == '\0' ? nullptr : value;
}

int open_here(Repository& out) {
  git_repository* opened = nullptr;
  const char* given = variable("GIT_DIR"); // set in git's own hooks
  const int code =
      given != nullptr
          ? git_repository_open_ext(&opened, given, GIT_REPOSITORY_OPEN_NO_SEARCH, nullptr)
          : git_repository_open_ext(&opened, ".", 0, variable("GIT_CEILING_DIRECTORIES"));
  out.reset(opened);
  return code;
}

/// Does the user or the machine trust every repository? libgit2 1.5 does not know `*`.
bool trusts_all() {
  git_config* opened = nullptr;
  const int code = git_config_open_default(&opened);
  const Config config(opened);
  if (code != 0) return false;
  bool out = false;
  const auto each = [](const git_config_entry* entry, void* all) {
    const std::string_view value = entry->value == nullptr ? "" : entry->value;
    bool& trusted = *static_cast<bool*>(all);
    if (value.empty()) trusted = false; // what stood before is taken back
    if (value == "*") trusted = true;
    return 0;
  };
  git_config_get_multivar_foreach(opened, "safe.directory", nullptr, each, &out);
  return out;
}

/// Does the repository name its objects in another way than by SHA-1?
bool has_other_names() {
  const char* given = variable("GIT_DIR");
  std::string folder = given == nullptr ? "" : given;
  git_buf text{};
  if (given == nullptr &&
      git_repository_discover(&text, ".", 0, variable("GIT_CEILING_DIRECTORIES")) == 0)
    folder.assign(text.ptr, text.size);
  git_buf_dispose(&text);
  git_config* opened = nullptr;
  const int code = git_config_open_ondisk(&opened, (folder + "/config").c_str());
  const Config config(opened);
  if (code != 0) return false;
  git_buf value{};
  const bool said = git_config_get_string_buf(&value, opened, "extensions.objectformat") == 0 &&
                    std::string_view(value.ptr, value.size) != "sha1";
  git_buf_dispose(&value);
  return said;
}

ReadError not_opened(int code) {
  if (code == GIT_ENOTFOUND)
    return {Kind::missing, "there is no such file, and no repository to look for a revision in"};
  if (code == GIT_EOWNER)
    return {Kind::unreadable,
            "the repository belongs to somebody else; where you trust it, tell git: "
            "`git config --global --add safe.directory FOLDER`"};
  if (error_class() == GIT_ERROR_CONFIG)
    return {Kind::unreadable, "the configuration of the repository cannot be read"};
  if (has_other_names())
    return {Kind::unreadable,
            "the repository names its objects by SHA-256, and norma reads only SHA-1"};
  return {Kind::unreadable, "the repository is of a kind that norma cannot read"};
}

bool is_shallow(git_repository& repository) { return git_repository_is_shallow(&repository) == 1; }

/// Why `rev` is not even looked for.
std::optional<std::string> refused(std::string_view rev) {
  constexpr std::size_t longest = 1000;
  if (rev.size() > longest) return "the name of a revision is not that long";
  if (rev.starts_with('-')) return "a revision does not begin with -";
  // It would walk through all of the history with an expression that somebody else may have
  // written.
  if (rev.find("{/") != std::string_view::npos)
    return "norma does not search the history for a text: name the revision";
  if (rev.find("..") != std::string_view::npos) return "this is a range: name one revision";
  return std::nullopt;
}

} // namespace

std::variant<Repository, ReadError> open_repository() {
  static std::mutex settings; // where they are looked for is the library's, for all threads
  const std::lock_guard lock(settings);
  start_library();
  const char* given = variable("GIT_DIR");
  if (pipes_in_repository(given == nullptr ? "" : given))
    return ReadError{Kind::unreadable, "a pipe or a device stands where git has its files"};
  Repository out;
  int code = open_here(out);
  // Where nobody has said anything about trust, libgit2 tells that it did not find this.
  const auto of_other = [&] {
    return code == GIT_EOWNER || (code == GIT_ENOTFOUND && error_class() == GIT_ERROR_CONFIG);
  };
  if (of_other()) {
    look_for_settings(nullptr);
    const bool all = trusts_all();
    if (all) git_libgit2_opts(GIT_OPT_SET_OWNER_VALIDATION, 0);
    code = open_here(out);
    if (all) git_libgit2_opts(GIT_OPT_SET_OWNER_VALIDATION, 1);
    look_for_settings(nowhere);
    if (of_other()) code = GIT_EOWNER;
  }
  if (code != 0) return not_opened(code);
  return out;
}

std::variant<Odb, ReadError> objects_of(git_repository& repository) {
  git_odb* odb = nullptr;
  const int code = git_repository_odb(&odb, &repository);
  Odb out(odb);
  const std::string folder = std::string(git_repository_commondir(&repository)) + "objects";
  if (code != 0 || !guard(*odb, folder))
    return ReadError{Kind::unreadable, "the objects of the repository cannot be read"};
  return out;
}

std::variant<git_oid, ReadError> tree_of(git_repository& repository, const std::string& rev) {
  if (const auto why = refused(rev)) return ReadError{Kind::unreadable, *why};
  git_object* found = nullptr;
  int code = git_revparse_single(&found, &repository, rev.c_str());
  const Object object(found);
  if (code == 0) {
    if (git_object_type(found) == GIT_OBJECT_TREE) return *git_object_id(found);
    git_object* peeled = nullptr;
    code = git_object_peel(&peeled, found, GIT_OBJECT_COMMIT);
    const Object commit(peeled);
    if (code == 0) return *git_commit_tree_id(reinterpret_cast<git_commit*>(peeled));
    if (code == GIT_ENOTFOUND || error_class() == GIT_ERROR_ZLIB)
      return not_to_be_had(repository, code);
    return ReadError{Kind::missing, fmt::format("{} is no revision", rev)};
  }
  if (code == GIT_EAMBIGUOUS)
    return ReadError{Kind::missing, fmt::format("{} may mean more than one revision", rev)};
  const bool of_objects = error_class() == GIT_ERROR_ODB || error_class() == GIT_ERROR_ZLIB ||
                          error_class() == GIT_ERROR_OBJECT;
  if (git_repository_head_unborn(&repository) == 1 &&
      (rev.starts_with("HEAD") || rev.starts_with("@")))
    return ReadError{Kind::missing, "nothing has been committed yet"};
  const bool back = rev.find_first_of("~^") != std::string::npos;
  if (code == GIT_ENOTFOUND && back && is_shallow(repository))
    return ReadError{Kind::missing,
                     fmt::format("this copy of the repository does not go back to {}; fetch first "
                                 "(`git fetch --unshallow`)",
                                 rev)};
  const bool is_id = rev.find_first_not_of("0123456789abcdef") == std::string::npos &&
                     (rev.size() == GIT_OID_HEXSZ || is_shallow(repository));
  if (of_objects || (code == GIT_ENOTFOUND && is_id)) return not_to_be_had(repository, code);
  return ReadError{Kind::missing, fmt::format("there is no such file, and no revision {}", rev)};
}

ReadError not_to_be_had(git_repository& repository, int code) {
  if (code != GIT_ENOTFOUND)
    return {Kind::unreadable, "the repository is damaged there; `git fsck` says more"};
  return {Kind::unreadable,
          is_shallow(repository)
              ? "this copy of the repository does not go back so far; fetch first "
                "(`git fetch --unshallow`)"
              : "this copy of the repository does not hold it; fetch first "
                "(where nothing is to be fetched, it is damaged)"};
}

} // namespace norma::revisions
