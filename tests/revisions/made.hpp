// Repositories that tests make, object by object, and the commands run inside them.
#pragma once

#include <git2.h>

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "cli/run.hpp"
#include "support/support.hpp"

namespace norma::test {

/// What stands in a tree under a path.
struct Content {
  std::string bytes;
  git_filemode_t mode = GIT_FILEMODE_BLOB;
  Content(std::string text) : bytes(std::move(text)) {} // NOLINT: a text is a file
  Content(const char* text) : bytes(text) {}            // NOLINT
  Content(std::string text, git_filemode_t as) : bytes(std::move(text)), mode(as) {}
};
using Contents = std::map<std::string, Content>;

class MadeRepository {
 public:
  explicit MadeRepository(std::filesystem::path path, bool bare = false);
  MadeRepository(const MadeRepository&) = delete;
  MadeRepository& operator=(const MadeRepository&) = delete;
  ~MadeRepository();

  /// Commits these files, and no others, on `reference`; on top of what that is now.
  git_oid commit(const Contents& files, const std::string& reference = "HEAD");
  git_oid commit_tree(const git_oid& tree, const std::string& reference = "HEAD");
  git_oid blob(const std::string& bytes);
  git_oid tree(const Contents& files);
  /// The file of a loose object.
  [[nodiscard]] std::filesystem::path object(const git_oid& id) const;
  /// The object that `spec` means: HEAD:a.norma.
  git_oid id(const std::string& spec);
  void set(const std::string& key, const std::string& value);

  git_repository* get() { return repository_; }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  /// Its folder of objects, references and settings.
  [[nodiscard]] std::filesystem::path inside() const;

 private:
  std::filesystem::path path_;
  git_repository* repository_ = nullptr;
};

/// A variable of the environment as long as the object lives; null takes it away.
class Variable {
 public:
  Variable(const char* name, const char* value);
  Variable(const Variable&) = delete;
  Variable& operator=(const Variable&) = delete;
  ~Variable();

 private:
  std::string name_;
  std::string before_;
  bool had_ = false;
};

/// Runs `norma` as norma-press does.
cli::Outcome run_norma(const std::vector<std::string>& arguments);
/// What it says, on both ways.
std::string said(const cli::Outcome& outcome);

/// A small protocol of this name; `rest` stands in it behind the header.
std::string small_protocol(const std::string& name, const std::string& rest = "");

} // namespace norma::test
