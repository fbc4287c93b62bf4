// Who provides files: the disk, or memory in tests and editors. The one seam for reading.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace norma::text {

/// Why a file could not be had; `why` is a plain sentence part for the reader.
struct ReadError {
  enum class Kind { missing, folder, unreadable, too_large, outside };
  Kind kind = Kind::missing;
  std::string why;
};

using ReadResult = std::variant<std::string, ReadError>;

/// A file: one name for one file (`id`), and the name to read and show it by.
struct Located {
  std::string id;
  std::string path;
};
using LocateResult = std::variant<Located, ReadError>;
using ListResult = std::variant<std::vector<std::string>, ReadError>;

/// What marks the top of a tree of protocols, and says what holds for them.
inline constexpr std::string_view project_file = "norma.yaml";
/// A project file, and the way from its folder to the file that it was looked for from.
struct Above {
  std::string path;
  std::string way;
};

/// Files over this size are refused.
inline constexpr std::size_t largest_file = 16u * 1024u * 1024u;
/// What is said of one.
ReadError too_large();

class Files {
 public:
  Files() = default;
  Files(const Files&) = delete;
  Files& operator=(const Files&) = delete;
  virtual ~Files() = default;
  /// All bytes of the regular file at `path`, or why not.
  [[nodiscard]] virtual ReadResult read(const std::string& path) const = 0;
  /// Where `relative`, written in the file `from`, leads to. `root` bounds it: links are followed,
  /// and what does not lie below `root` is outside. An absolute path always is.
  [[nodiscard]] virtual LocateResult locate(const std::string& from, const std::string& relative,
                                            const std::string& root) const = 0;
  /// Is the file at `path` a link to another place?
  [[nodiscard]] virtual bool is_link(const std::string& path) const = 0;
  /// The folder that imports of `path` are bounded by, where nobody says otherwise: the nearest one
  /// above that holds `.git`, else the nearest that holds a project file, else the file's own.
  [[nodiscard]] virtual std::string root_of(const std::string& path) const = 0;
  /// The nearest project file in the folder of `path` or above it, but not above its root.
  [[nodiscard]] virtual std::optional<Above> project_above(const std::string& path) const;
  /// The files that `name` stands for: itself, or, where it is a folder, those below it whose names
  /// end in `ending`, sorted.
  [[nodiscard]] virtual ListResult listed(const std::string& name, std::string_view ending) const;
  /// Where the file's own name begins in `path`, behind its folder.
  [[nodiscard]] virtual std::size_t name_begins(const std::string& path) const;
  /// Is it kept somewhere where nothing is ever written?
  [[nodiscard]] virtual bool is_fixed(const std::string& path) const;
};

/// The disk. Reads regular files only (a pipe or device is unreadable), 16 MB at most.
class DiskFiles final : public Files {
 public:
  [[nodiscard]] ReadResult read(const std::string& path) const override;
  [[nodiscard]] LocateResult locate(const std::string& from, const std::string& relative,
                                    const std::string& root) const override;
  [[nodiscard]] bool is_link(const std::string& path) const override;
  [[nodiscard]] std::string root_of(const std::string& path) const override;
  [[nodiscard]] ListResult listed(const std::string& name, std::string_view ending) const override;
  [[nodiscard]] std::optional<Above> project_above(const std::string& path) const override;
};

/// Puts `bytes` in place of the file at `path`: written beside it, then renamed, so that the file
/// is never seen half-written. Links are followed, permissions kept. Nothing where it worked.
std::optional<ReadError> replace_file(const std::string& path, std::string_view bytes);
/// The same, also where there is no file yet.
std::optional<ReadError> put_file(const std::string& path, std::string_view bytes);

/// The files below `folder` whose names end in `ending`, sorted. Links are not followed; folders
/// that hold what tools fetched or made are not entered: hidden ones, `node_modules`,
/// `__pycache__`, those with a CACHEDIR.TAG (Cache Directory Tagging Specification,
/// bford.info/cachedir). At most 100,000 are listed; more are an error.
ListResult files_below(const std::string& folder, std::string_view ending);
bool is_folder(const std::string& path);
/// Is there anything by this name, if only a link that leads nowhere?
bool is_there(const std::string& path);

// What listing goes by, wherever files are kept.
inline constexpr std::size_t most_listed = 100000;
ReadError too_many();
/// Do folders of this name hold what tools fetched or made?
bool is_of_tools(std::string_view folder_name);
inline constexpr std::string_view cache_tag = "CACHEDIR.TAG";
/// The first bytes of such a tag, by its specification.
inline constexpr std::string_view cache_signature = "Signature: 8a477f597d28d172789f06886806bc55";

/// Files held in memory by name.
class MemoryFiles final : public Files {
 public:
  void put(std::string path, std::string bytes) { files_[std::move(path)] = std::move(bytes); }
  [[nodiscard]] ReadResult read(const std::string& path) const override;
  [[nodiscard]] LocateResult locate(const std::string& from, const std::string& relative,
                                    const std::string& root) const override;
  [[nodiscard]] bool is_link(const std::string& path) const override;
  [[nodiscard]] std::string root_of(const std::string& path) const override;
  [[nodiscard]] std::optional<Above> project_above(const std::string& path) const override;

 private:
  std::map<std::string, std::string> files_;
};

} // namespace norma::text
