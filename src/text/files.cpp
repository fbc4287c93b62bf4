#include "text/files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace norma::text {
namespace {

ReadError too_large() { return {ReadError::Kind::too_large, "it is larger than 16 MB"}; }

/// Closes a file descriptor when it goes.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  [[nodiscard]] int get() const { return fd_; }

 private:
  int fd_;
};

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

ReadResult MemoryFiles::read(const std::string& path) const {
  const auto found = files_.find(path);
  if (found == files_.end()) {
    return ReadError{ReadError::Kind::missing, "there is no such file"};
  }
  if (found->second.size() > largest_file) return too_large();
  return found->second;
}

} // namespace norma::text
