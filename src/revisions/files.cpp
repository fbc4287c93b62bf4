#include <algorithm>
#include <filesystem>
#include <mutex>
#include <optional>
#include <string_view>
#include <unordered_map>

#include "revisions/repository.hpp"
#include "revisions/revisions.hpp"

namespace norma::revisions {
namespace {

namespace fs = std::filesystem;
using text::ReadError;
using Kind = text::ReadError::Kind;

constexpr std::size_t largest_tree = 64u << 20u; // the list of one folder, in bytes
constexpr std::size_t most_entries = 1000000;    // looked at in one listing
constexpr std::size_t deepest = 100;             // folders in folders
constexpr std::size_t longest_path = 4096;       // as on the disk

struct Entry {
  git_oid id;
  git_filemode_t mode = GIT_FILEMODE_UNREADABLE;
};

/// REV:path, cut in two.
struct Named {
  std::string rev;
  std::string path;
};

ReadError bad_path() {
  return {Kind::unreadable, "behind the colon stands a plain path from the top of the revision"};
}
ReadError not_in_it() {
  return {Kind::missing, "the revision has no such file (paths start at its top)"};
}

/// Why what stands there is no file to read.
std::optional<ReadError> no_file(const Entry& entry) {
  switch (entry.mode) {
  case GIT_FILEMODE_BLOB:
  case GIT_FILEMODE_BLOB_EXECUTABLE: return std::nullopt;
  case GIT_FILEMODE_TREE: return ReadError{Kind::folder, "it is a folder"};
  case GIT_FILEMODE_LINK:
    return ReadError{Kind::unreadable, "it is a link, and links of a revision are not followed"};
  case GIT_FILEMODE_COMMIT:
    return ReadError{Kind::unreadable, "it is a repository of its own (a submodule)"};
  case GIT_FILEMODE_UNREADABLE: break;
  }
  return ReadError{Kind::unreadable, "it is not a regular file"};
}

/// A path within a tree that goes straight down.
bool is_straight(std::string_view path) {
  while (!path.empty()) {
    const std::size_t stop = std::min(path.find('/'), path.size());
    const std::string_view part = path.substr(0, stop);
    if (part.empty() || part == "." || part == "..") return false;
    if (stop + 1 == path.size()) return false; // a slash at the end
    path.remove_prefix(std::min(stop + 1, path.size()));
  }
  return true;
}

bool is_below(std::string_view path, std::string_view folder) {
  return folder.empty() || path == folder ||
         (path.starts_with(folder) && path[folder.size()] == '/');
}

class RevisionFiles final : public text::Files {
 public:
  [[nodiscard]] text::ReadResult read(const std::string& path) const override {
    const std::lock_guard lock(mutex_);
    const auto named = named_by(path);
    if (!named) return disk_.read(path);
    const auto entry = entry_of(path, *named);
    if (const auto* error = std::get_if<ReadError>(&entry)) return *error;
    return bytes_of(std::get<Entry>(entry));
  }

  [[nodiscard]] text::LocateResult locate(const std::string& from, const std::string& relative,
                                          const std::string& root) const override {
    const std::lock_guard lock(mutex_);
    const auto named = named_by(from);
    if (!named) return disk_.locate(from, relative, root);
    const ReadError outside{Kind::outside, "it lies outside"};
    if (fs::path(relative).is_absolute()) return outside;
    const std::string path =
        (fs::path(named->path).parent_path() / relative).lexically_normal().string();
    const auto bound = bound_of(root);
    if (!bound || !is_straight(path) || !is_below(path, *bound)) return outside;
    const auto tree = tree_named(named->rev);
    if (const auto* error = std::get_if<ReadError>(&tree)) return *error;
    std::string shown = named->rev + ":" + path;
    ours_.try_emplace(shown);
    return text::Located{top_of(std::get<git_oid>(tree)) + "/" + path, std::move(shown)};
  }

  [[nodiscard]] bool is_link(const std::string& path) const override {
    const std::lock_guard lock(mutex_);
    const auto named = named_by(path);
    if (!named) return disk_.is_link(path);
    const auto entry = entry_of(path, *named);
    const auto* found = std::get_if<Entry>(&entry);
    return found != nullptr && found->mode == GIT_FILEMODE_LINK;
  }

  [[nodiscard]] std::string root_of(const std::string& path) const override {
    const std::lock_guard lock(mutex_);
    const auto named = named_by(path);
    if (!named) return disk_.root_of(path);
    const auto tree = tree_named(named->rev);
    // Where there is none, reading it will tell.
    return std::holds_alternative<git_oid>(tree) ? top_of(std::get<git_oid>(tree))
                                                 : named->rev + ":";
  }

  [[nodiscard]] std::optional<text::Above> project_above(const std::string& path) const override {
    const std::lock_guard lock(mutex_);
    const auto named = named_by(path);
    if (!named) return disk_.project_above(path);
    if (!is_straight(named->path)) return std::nullopt;
    fs::path at(named->path);
    do {
      at = at.parent_path();
      const Named there{named->rev, (at / text::project_file).string()};
      if (std::holds_alternative<Entry>(find(there))) {
        std::string shown = there.rev + ":" + there.path;
        ours_.try_emplace(shown);
        return text::Above{std::move(shown),
                           at.empty() ? named->path : named->path.substr(at.string().size() + 1)};
      }
    } while (!at.empty());
    return std::nullopt;
  }

  [[nodiscard]] text::ListResult listed(const std::string& name,
                                        std::string_view ending) const override {
    const std::lock_guard lock(mutex_);
    auto named = named_by(name);
    if (!named) {
      const bool of_disk = name.empty() || name.find(':') != std::string::npos ||
                           name.ends_with(ending) || text::is_there(name);
      if (of_disk) return disk_.listed(name, ending);
      named = Named{name, ""}; // all of the revision
    }
    // Behind a folder, as shells write it.
    if (named->path.size() > 1 && named->path.ends_with('/')) named->path.pop_back();
    const auto entry = find(*named);
    if (const auto* error = std::get_if<ReadError>(&entry)) return *error;
    if (std::get<Entry>(entry).mode != GIT_FILEMODE_TREE) return std::vector{name};
    std::vector<std::string> out;
    std::size_t seen = 0;
    const std::string before =
        named->path.empty() ? named->rev + ":" : named->rev + ":" + named->path + "/";
    if (auto error = list(std::get<Entry>(entry).id, before, ending, 0, seen, out))
      return std::move(*error);
    std::sort(out.begin(), out.end());
    return out;
  }

  [[nodiscard]] std::size_t name_begins(const std::string& path) const override {
    const std::lock_guard lock(mutex_);
    const std::size_t behind = path.rfind('/') + 1;
    const auto named = named_by(path);
    return named ? std::max(behind, named->rev.size() + 1) : behind;
  }

  [[nodiscard]] bool is_fixed(const std::string& path) const override {
    const std::lock_guard lock(mutex_);
    return named_by(path).has_value();
  }

 private:
  // All of these by who holds the lock.

  /// What lies on the disk is the disk's, but for what a revision led to.
  [[nodiscard]] std::optional<Named> named_by(const std::string& path) const {
    const std::size_t colon = path.find(':');
    if (colon == std::string::npos || colon == 0) return std::nullopt;
    if (ours_.count(path) == 0 && text::is_there(path)) return std::nullopt;
    return Named{path.substr(0, colon), path.substr(colon + 1)};
  }

  /// By one name for one tree, whatever the revision is called.
  static std::string top_of(const git_oid& tree) {
    char digits[GIT_OID_HEXSZ + 1];
    return std::string(git_oid_tostr(digits, sizeof digits, &tree)) + ":";
  }

  [[nodiscard]] std::optional<ReadError> open() const {
    if (repository_ != nullptr) return std::nullopt;
    if (not_opened_) return not_opened_;
    auto opened = open_repository();
    if (auto* error = std::get_if<ReadError>(&opened)) return not_opened_ = std::move(*error);
    repository_ = std::move(std::get<Repository>(opened));
    auto odb = objects_of(*repository_);
    if (auto* error = std::get_if<ReadError>(&odb)) {
      repository_ = nullptr;
      return not_opened_ = std::move(*error);
    }
    odb_ = std::move(std::get<Odb>(odb));
    return std::nullopt;
  }

  /// It stays what it was when it was first asked for.
  [[nodiscard]] std::variant<git_oid, ReadError> tree_named(const std::string& rev) const {
    if (auto error = open()) return std::move(*error);
    const auto known = trees_.find(rev);
    if (known != trees_.end()) return known->second;
    return trees_.emplace(rev, tree_of(*repository_, rev)).first->second;
  }

  /// A folder of the repository, or the tops of its trees: how far bases may reach.
  [[nodiscard]] std::optional<std::string> bound_of(const std::string& root) const {
    std::string path;
    const std::size_t colon = root.find(':');
    if (root.empty()) return path;
    if (colon != std::string::npos && colon > 0 && !text::is_there(root)) {
      path = root.substr(colon + 1);
      if (path.ends_with('/')) path.pop_back();
      return is_straight(path) ? std::optional(path) : std::nullopt;
    }
    if (repository_ == nullptr || git_repository_workdir(repository_.get()) == nullptr)
      return std::nullopt;
    std::error_code error;
    const fs::path top = fs::canonical(git_repository_workdir(repository_.get()), error);
    if (error) return std::nullopt;
    const fs::path folder = fs::canonical(root, error);
    if (error) return std::nullopt;
    path = folder.lexically_relative(top).string();
    const auto climbs = [](const fs::path& way) { return *way.begin() == ".."; };
    if (!climbs(top.lexically_relative(folder))) return ""; // the top, or above it
    return climbs(path) ? std::nullopt : std::optional(path);
  }

  [[nodiscard]] std::variant<Entry, ReadError> entry_of(const std::string& name,
                                                        const Named& named) const {
    const auto known = ours_.find(name);
    if (known != ours_.end() && known->second) return *known->second;
    auto found = find(named);
    if (known != ours_.end() && std::holds_alternative<Entry>(found))
      known->second = std::get<Entry>(found);
    return found;
  }

  [[nodiscard]] std::variant<Entry, ReadError> find(const Named& named) const {
    const auto top = tree_named(named.rev);
    if (const auto* error = std::get_if<ReadError>(&top)) return *error;
    if (!is_straight(named.path)) return bad_path();
    Entry at{std::get<git_oid>(top), GIT_FILEMODE_TREE};
    std::string_view left = named.path;
    std::size_t depth = 0;
    while (!left.empty()) {
      if (at.mode == GIT_FILEMODE_LINK) return *no_file(at);
      if (at.mode != GIT_FILEMODE_TREE || ++depth > deepest) return not_in_it();
      const auto tree = tree_at(at.id);
      if (const auto* error = std::get_if<ReadError>(&tree)) return *error;
      const std::string part(left.substr(0, left.find('/')));
      left.remove_prefix(std::min(part.size() + 1, left.size()));
      const git_tree_entry* entry = git_tree_entry_byname(std::get<Tree>(tree).get(), part.c_str());
      if (entry == nullptr) return not_in_it();
      at = {*git_tree_entry_id(entry), git_tree_entry_filemode(entry)};
    }
    return at;
  }

  /// Nothing where an object is of this kind and no larger; before it is read.
  [[nodiscard]] std::optional<ReadError> not_like(const git_oid& id, git_object_t kind,
                                                  std::size_t most, const ReadError& larger) const {
    std::size_t size = 0;
    git_object_t found = GIT_OBJECT_INVALID;
    if (const int code = git_odb_read_header(&size, &found, odb_.get(), &id))
      return not_to_be_had(*repository_, code);
    if (found != kind) return not_to_be_had(*repository_, GIT_ERROR);
    return size > most ? std::optional(larger) : std::nullopt;
  }

  [[nodiscard]] std::variant<Tree, ReadError> tree_at(const git_oid& id) const {
    if (auto error = not_like(id, GIT_OBJECT_TREE, largest_tree,
                              {Kind::too_large, "one of its folders is too large"}))
      return std::move(*error);
    git_tree* tree = nullptr;
    if (const int code = git_tree_lookup(&tree, repository_.get(), &id))
      return not_to_be_had(*repository_, code);
    return Tree(tree);
  }

  [[nodiscard]] text::ReadResult bytes_of(const Entry& entry) const {
    if (auto error = no_file(entry)) return std::move(*error);
    if (auto error = not_like(entry.id, GIT_OBJECT_BLOB, text::largest_file, text::too_large()))
      return std::move(*error);
    git_blob* blob = nullptr;
    if (const int code = git_blob_lookup(&blob, repository_.get(), &entry.id))
      return not_to_be_had(*repository_, code);
    const Blob held(blob);
    return std::string(static_cast<const char*>(git_blob_rawcontent(blob)),
                       static_cast<std::size_t>(git_blob_rawsize(blob)));
  }

  /// As `text::files_below` does it. The same folder may stand in many places: what is looked at is
  /// counted, not what there is.
  [[nodiscard]] std::optional<ReadError> list(const git_oid& id, const std::string& before,
                                              std::string_view ending, std::size_t depth,
                                              std::size_t& seen,
                                              std::vector<std::string>& out) const {
    if (depth > deepest) return ReadError{Kind::too_large, "its folders lie more than 100 deep"};
    const auto at = tree_at(id);
    if (const auto* error = std::get_if<ReadError>(&at)) return *error;
    git_tree* const tree = std::get<Tree>(at).get();
    if (depth > 0 && is_cache(tree)) return std::nullopt;
    const std::size_t count = git_tree_entrycount(tree);
    for (std::size_t i = 0; i < count; ++i) {
      if (++seen > most_entries)
        return ReadError{Kind::too_large, "it holds more than 1,000,000 entries"};
      const git_tree_entry* entry = git_tree_entry_byindex(tree, i);
      const std::string name = git_tree_entry_name(entry);
      const Entry found{*git_tree_entry_id(entry), git_tree_entry_filemode(entry)};
      if (!is_straight(name) || name.empty() || name.find('/') != std::string::npos) continue;
      if (before.size() + name.size() > longest_path)
        return ReadError{Kind::too_large, "one of its paths has more than 4096 letters"};
      if (found.mode == GIT_FILEMODE_TREE) {
        if (text::is_of_tools(name)) continue;
        if (auto error = list(found.id, before + name + "/", ending, depth + 1, seen, out))
          return error;
      } else if (name.ends_with(ending) && !no_file(found)) {
        if (out.size() == text::most_listed) return text::too_many();
        out.push_back(before + name);
        ours_[out.back()] = found;
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] bool is_cache(const git_tree* tree) const {
    const git_tree_entry* tag = git_tree_entry_byname(tree, text::cache_tag.data());
    if (tag == nullptr) return false;
    const text::ReadResult bytes =
        bytes_of({*git_tree_entry_id(tag), git_tree_entry_filemode(tag)});
    const auto* found = std::get_if<std::string>(&bytes);
    return found != nullptr && found->starts_with(text::cache_signature);
  }

  text::DiskFiles disk_;
  mutable std::mutex mutex_; // objects of libgit2 are for one thread at a time
  mutable Repository repository_;
  mutable Odb odb_; // goes first
  mutable std::optional<ReadError> not_opened_;
  mutable std::unordered_map<std::string, std::variant<git_oid, ReadError>> trees_; // by revision
  /// Names that a revision led to, and what they mean where that is known.
  mutable std::unordered_map<std::string, std::optional<Entry>> ours_;
};

} // namespace

std::unique_ptr<text::Files> files() { return std::make_unique<RevisionFiles>(); }

} // namespace norma::revisions
