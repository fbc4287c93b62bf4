#include "text/files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>

#include "text/descriptor.hpp"

namespace norma::text {
namespace fs = std::filesystem;

ReadError too_large() { return {ReadError::Kind::too_large, "it is larger than 16 MB"}; }

ReadError too_many() { return {ReadError::Kind::too_large, "it holds more than 100,000 files"}; }

ListResult Files::listed(const std::string& name, std::string_view /*ending*/) const {
  return std::vector{name};
}

std::size_t Files::name_begins(const std::string& path) const { return path.rfind('/') + 1; }

bool Files::is_fixed(const std::string& /*path*/) const { return false; }

std::optional<Above> Files::project_above(const std::string& /*path*/) const {
  return std::nullopt;
}

namespace {

ReadError outside() { return {ReadError::Kind::outside, "it lies outside"}; }

/// Is `path` the folder `root` or something below it? Both are absolute and normal.
bool is_below(const fs::path& path, const fs::path& root) {
  auto p = path.begin();
  for (const fs::path& part : root) {
    if (part.empty()) continue; // behind a closing slash
    if (p == path.end() || *p != part) return false;
    ++p;
  }
  return true;
}

} // namespace

ReadResult DiskFiles::read(const std::string& path) const {
  // O_NONBLOCK: opening a pipe that nobody writes to must not hang.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.get() < 0) {
    if (errno == ENOENT || errno == ENOTDIR) {
      return ReadError{ReadError::Kind::missing, "there is no such file"};
    }
    return ReadError{ReadError::Kind::unreadable, std::strerror(errno)};
  }
  struct stat status {};
  if (::fstat(file.get(), &status) != 0) {
    return ReadError{ReadError::Kind::unreadable, std::strerror(errno)};
  }
  if (S_ISDIR(status.st_mode)) return ReadError{ReadError::Kind::folder, "it is a folder"};
  if (!S_ISREG(status.st_mode)) {
    return ReadError{ReadError::Kind::unreadable, "it is not a regular file"};
  }
  if (static_cast<std::size_t>(status.st_size) > largest_file) return too_large();

  // The file may grow while it is read: the limit is held against what arrives.
  std::string bytes(static_cast<std::size_t>(status.st_size) + 1, '\0');
  std::size_t have = 0;
  while (true) {
    if (have == bytes.size()) bytes.resize(bytes.size() * 2);
    const ssize_t got = ::read(file.get(), bytes.data() + have, bytes.size() - have);
    if (got < 0) {
      if (errno == EINTR) continue;
      return ReadError{ReadError::Kind::unreadable, std::strerror(errno)};
    }
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
    if (have > largest_file) return too_large();
  }
  bytes.resize(have);
  return bytes;
}

LocateResult DiskFiles::locate(const std::string& from, const std::string& relative,
                               const std::string& root) const {
  if (fs::path(relative).is_absolute()) return outside();
  const fs::path path = (fs::path(from).parent_path() / relative).lexically_normal();
  std::error_code error;
  const fs::path real = fs::weakly_canonical(path, error);
  if (error) return ReadError{ReadError::Kind::unreadable, error.message()};
  const fs::path real_root = fs::canonical(root.empty() ? "." : root, error);
  if (error) return ReadError{ReadError::Kind::unreadable, error.message()};
  const fs::path absolute = fs::absolute(real, error);
  if (error || !is_below(absolute, real_root)) return outside();
  return Located{absolute.string(), path.string()};
}

bool DiskFiles::is_link(const std::string& path) const {
  struct stat status {};
  return ::lstat(path.c_str(), &status) == 0 && S_ISLNK(status.st_mode);
}

namespace {

/// Absolute, links followed; nothing where it is no path at all.
std::optional<fs::path> absolute_of(const std::string& path) {
  std::error_code error;
  const fs::path file = fs::weakly_canonical(fs::path(path), error);
  fs::path absolute = fs::absolute(error ? fs::path(path) : file, error);
  if (error) return std::nullopt;
  return absolute;
}

bool belong_to_one(const fs::path& a, const fs::path& b) {
  struct stat of_a {};
  struct stat of_b {};
  return ::lstat(a.c_str(), &of_a) == 0 && ::lstat(b.c_str(), &of_b) == 0 &&
         of_a.st_uid == of_b.st_uid;
}

/// The nearest folder above a file that holds `.git`. Where none does, the nearest with a project
/// file: not one that somebody else has put above it, in a folder for everybody's files, say.
fs::path root_of_file(const fs::path& file) {
  const fs::path folder = file.parent_path();
  std::optional<fs::path> with_project;
  for (fs::path at = folder;; at = at.parent_path()) {
    std::error_code error;
    if (fs::exists(at / ".git", error)) return at;
    if (!with_project && is_there((at / project_file).string()) &&
        (at == folder || belong_to_one(at / project_file, folder)))
      with_project = at;
    if (at == at.parent_path()) break;
  }
  return with_project.value_or(folder);
}

} // namespace

std::string DiskFiles::root_of(const std::string& path) const {
  const auto file = absolute_of(path);
  return file ? root_of_file(*file).string() : "."; // reading it will fail
}

std::optional<Above> DiskFiles::project_above(const std::string& path) const {
  const auto file = absolute_of(path);
  if (!file) return std::nullopt;
  const fs::path root = root_of_file(*file);
  for (fs::path at = file->parent_path();; at = at.parent_path()) {
    const std::string found = (at / project_file).string();
    if (is_there(found)) {
      std::error_code error;
      const fs::path here = fs::current_path(error);
      // As one would type it from here.
      const fs::path shown = error ? fs::path(found) : fs::path(found).lexically_proximate(here);
      return Above{shown.string(), file->lexically_relative(at).generic_string()};
    }
    if (at == root || at == at.parent_path()) return std::nullopt;
  }
}

ListResult DiskFiles::listed(const std::string& name, std::string_view ending) const {
  return is_folder(name) ? files_below(name, ending) : std::vector{name};
}

LocateResult MemoryFiles::locate(const std::string& from, const std::string& relative,
                                 const std::string& root) const {
  if (fs::path(relative).is_absolute()) return outside();
  const fs::path path = (fs::path(from).parent_path() / relative).lexically_normal();
  const bool climbs = path.begin() != path.end() && *path.begin() == "..";
  if (climbs || !is_below(path, fs::path(root).lexically_normal())) return outside();
  return Located{path.string(), path.string()};
}

bool MemoryFiles::is_link(const std::string& /*path*/) const { return false; }

std::string MemoryFiles::root_of(const std::string& /*path*/) const { return ""; }

std::optional<Above> MemoryFiles::project_above(const std::string& path) const {
  for (fs::path at = fs::path(path).lexically_normal().parent_path();; at = at.parent_path()) {
    const std::string found = (at / project_file).string();
    if (files_.count(found) == 1)
      return Above{found, fs::path(path).lexically_normal().lexically_relative(at).string()};
    if (at == at.parent_path()) return std::nullopt;
  }
}

namespace {

ReadError failed(int error) { return {ReadError::Kind::unreadable, std::strerror(error)}; }

/// Written beside `target`, then renamed.
std::optional<ReadError> put(const fs::path& target, ::mode_t mode, std::string_view bytes) {
  std::string beside = target.parent_path() / ("." + target.filename().string() + ".XXXXXX");
  const Descriptor file(::mkostemp(beside.data(), O_CLOEXEC));
  if (file.get() < 0) return failed(errno);
  const auto give_up = [&](int reason) {
    ::unlink(beside.c_str());
    return failed(reason);
  };
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t wrote = ::write(file.get(), bytes.data() + done, bytes.size() - done);
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote < 0) return give_up(errno);
    done += static_cast<std::size_t>(wrote);
  }
  if (::fchmod(file.get(), mode) != 0 || ::fsync(file.get()) != 0 ||
      ::rename(beside.c_str(), target.c_str()) != 0) {
    return give_up(errno);
  }
  return std::nullopt;
}

} // namespace

std::optional<ReadError> replace_file(const std::string& path, std::string_view bytes) {
  std::error_code error;
  const fs::path target = fs::canonical(path, error);
  if (error) return ReadError{ReadError::Kind::missing, error.message()};
  struct stat status {};
  if (::stat(target.c_str(), &status) != 0) return failed(errno);
  if (!S_ISREG(status.st_mode)) return ReadError{ReadError::Kind::unreadable, "it is not a file"};
  return put(target, status.st_mode & 07777u, bytes);
}

std::optional<ReadError> put_file(const std::string& path, std::string_view bytes) {
  std::error_code error;
  if (fs::exists(fs::symlink_status(path, error))) return replace_file(path, bytes);
  const fs::path given(path);
  const fs::path folder = fs::canonical(given.has_parent_path() ? given.parent_path() : ".", error);
  if (error) return ReadError{ReadError::Kind::missing, error.message()};
  if (!given.has_filename()) return ReadError{ReadError::Kind::unreadable, "it is not a file"};
  return put(folder / given.filename(), 0644, bytes);
}

namespace {

/// Does a tool fill this folder, and nobody write in it?
bool is_filled_by_tools(const fs::path& folder) {
  if (is_of_tools(folder.filename().string())) return true;
  const Descriptor tag(
      ::open((folder / cache_tag).c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOFOLLOW));
  std::string bytes(cache_signature.size(), '\0');
  return tag.get() >= 0 &&
         ::read(tag.get(), bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()) &&
         bytes == cache_signature;
}

} // namespace

bool is_of_tools(std::string_view folder_name) {
  return folder_name.starts_with(".") || folder_name == "node_modules" ||
         folder_name == "__pycache__";
}

ListResult files_below(const std::string& folder, std::string_view ending) {
  std::vector<std::string> out;
  std::error_code error;
  fs::recursive_directory_iterator at(folder, error);
  if (error) return ReadError{ReadError::Kind::unreadable, error.message()};
  for (; at != fs::recursive_directory_iterator(); at.increment(error)) {
    if (error) return ReadError{ReadError::Kind::unreadable, error.message()};
    const std::string name = at->path().filename().string();
    const fs::file_status status = at->symlink_status(error);
    if (error) return ReadError{ReadError::Kind::unreadable, error.message()};
    if (fs::is_directory(status)) {
      if (is_filled_by_tools(at->path())) at.disable_recursion_pending();
      continue;
    }
    if (!fs::is_regular_file(status) || !name.ends_with(ending)) continue;
    if (out.size() == most_listed) return too_many();
    out.push_back(at->path().lexically_normal().string());
  }
  std::sort(out.begin(), out.end());
  return out;
}

bool is_folder(const std::string& path) {
  std::error_code error;
  return fs::is_directory(path, error);
}

bool is_there(const std::string& path) {
  struct stat status {};
  return ::lstat(path.c_str(), &status) == 0;
}

ReadResult MemoryFiles::read(const std::string& path) const {
  const auto found = files_.find(path);
  if (found == files_.end()) {
    return ReadError{ReadError::Kind::missing, "there is no such file"};
  }
  if (found->second.size() > largest_file) return too_large();
  return found->second;
}

} // namespace norma::text
