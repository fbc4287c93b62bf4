// Who provides files: the disk, or memory in tests and editors. The one seam for reading.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <variant>

namespace norma::text {

/// Why a file could not be had; `why` is a plain sentence part for the reader.
struct ReadError {
  enum class Kind { missing, folder, unreadable, too_large };
  Kind kind = Kind::missing;
  std::string why;
};

using ReadResult = std::variant<std::string, ReadError>;

/// Files over this size are refused.
inline constexpr std::size_t largest_file = 16u * 1024u * 1024u;

class Files {
 public:
  Files() = default;
  Files(const Files&) = delete;
  Files& operator=(const Files&) = delete;
  virtual ~Files() = default;
  /// All bytes of the regular file at `path`, or why not.
  [[nodiscard]] virtual ReadResult read(const std::string& path) const = 0;
};

/// The disk. Reads regular files only (a pipe or device is unreadable), 16 MB at most.
class DiskFiles final : public Files {
 public:
  [[nodiscard]] ReadResult read(const std::string& path) const override;
};

/// Files held in memory by name.
class MemoryFiles final : public Files {
 public:
  void put(std::string path, std::string bytes) { files_[std::move(path)] = std::move(bytes); }
  [[nodiscard]] ReadResult read(const std::string& path) const override;

 private:
  std::map<std::string, std::string> files_;
};

} // namespace norma::text
