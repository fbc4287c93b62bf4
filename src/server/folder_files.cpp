#include "server/folder_files.hpp"

#include <algorithm>
#include <filesystem>

namespace norma::server {
namespace fs = std::filesystem;
namespace {

std::string on_the_disk(const std::string& path) {
  std::error_code error;
  const fs::path real = fs::weakly_canonical(path, error);
  return error ? std::string() : real.string();
}

bool is_below(const std::string& path, const std::string& folder) {
  return path.size() > folder.size() && path.starts_with(folder) &&
         (folder.ends_with('/') || path[folder.size()] == '/');
}

} // namespace

void FolderFiles::open(const std::string& folder) {
  std::string real = on_the_disk(folder);
  while (real.size() > 1 && real.ends_with('/'))
    real.pop_back();
  if (real.empty()) return;
  const std::lock_guard lock(mutex_);
  if (std::find(folders_.begin(), folders_.end(), real) == folders_.end())
    folders_.push_back(std::move(real));
}

void FolderFiles::close(const std::string& folder) {
  const std::string real = on_the_disk(folder);
  const std::lock_guard lock(mutex_);
  std::erase(folders_, real);
}

std::string FolderFiles::folder_of(const std::string& path) const {
  const std::string real = on_the_disk(path);
  std::string best;
  const std::lock_guard lock(mutex_);
  for (const std::string& folder : folders_) {
    if (is_below(real, folder) && folder.size() >= best.size()) best = folder;
  }
  return best;
}

text::ReadResult FolderFiles::read(const std::string& path) const {
  if (folder_of(path).empty())
    return text::ReadError{text::ReadError::Kind::outside, "it lies outside the opened folder"};
  return disk_.read(path);
}

text::LocateResult FolderFiles::locate(const std::string& from, const std::string& relative,
                                       const std::string& root) const {
  return disk_.locate(from, relative, root);
}

bool FolderFiles::is_link(const std::string& path) const { return disk_.is_link(path); }

std::string FolderFiles::root_of(const std::string& path) const {
  std::string folder = folder_of(path);
  if (!folder.empty()) return folder;
  std::string own = on_the_disk(path);
  own.resize(std::min(own.rfind('/') + 1, own.size()));
  while (own.size() > 1 && own.ends_with('/'))
    own.pop_back();
  return own.empty() ? "/" : own;
}

std::optional<text::Above> FolderFiles::project_above(const std::string& path) const {
  auto found = disk_.project_above(path);
  return found && !folder_of(found->path).empty() ? std::move(found) : std::nullopt;
}

} // namespace norma::server
