#include "revisions/guard.hpp"

#include <fcntl.h>
#include <git2/sys/odb_backend.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

#include "text/descriptor.hpp"
#include "text/files.hpp"

namespace norma::revisions {
namespace {

namespace fs = std::filesystem;

/// Larger ones are not read, whatever they say: "commit 240", the size behind a kind.
std::optional<std::size_t> most_of(std::string_view kind) {
  if (kind == "commit" || kind == "tag") return 4u << 20u;
  if (kind == "tree") return 64u << 20u;
  if (kind == "blob") return text::largest_file;
  return std::nullopt;
}

struct Header {
  std::size_t length = 0; // its own
  std::size_t size = 0;   // of what stands behind it
  std::size_t most = 0;
};

/// "blob 12\0"
std::optional<Header> header_in(std::string_view bytes) {
  const std::size_t end = bytes.find('\0');
  const std::size_t blank = bytes.find(' ');
  if (end == std::string_view::npos || blank >= end) return std::nullopt;
  const auto most = most_of(bytes.substr(0, blank));
  Header out{end + 1, 0, most.value_or(0)};
  const char* const last = bytes.data() + end;
  const auto [stop, error] = std::from_chars(bytes.data() + blank + 1, last, out.size);
  if (!most || error != std::errc() || stop != last) return std::nullopt;
  return out;
}

class Inflater {
 public:
  Inflater() : sound_(inflateInit(&stream_) == Z_OK) {}
  Inflater(const Inflater&) = delete;
  Inflater& operator=(const Inflater&) = delete;
  ~Inflater() {
    if (sound_) inflateEnd(&stream_);
  }
  [[nodiscard]] bool sound() const { return sound_; }
  z_stream& stream() { return stream_; }

 private:
  z_stream stream_{};
  bool sound_;
};

enum class Look { none, whole, large, bad };

/// `of_all`: else its header alone is asked for, and its size does not matter.
Look look_at(const fs::path& path, bool of_all) {
  // O_NONBLOCK: a pipe in the place of an object must not hang.
  const text::Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.get() < 0) return Look::none;
  struct stat status {};
  if (::fstat(file.get(), &status) != 0 || !S_ISREG(status.st_mode)) return Look::bad;
  Inflater inflater;
  if (!inflater.sound()) return Look::bad;
  z_stream& z = inflater.stream();
  constexpr std::size_t piece = 65536;
  std::vector<unsigned char> in(piece);
  std::vector<unsigned char> out(piece);
  std::string start; // until the header is known
  std::optional<Header> header;
  std::size_t total = 0;
  int state = Z_OK;
  while (state == Z_OK) {
    const ssize_t got = ::read(file.get(), in.data(), in.size());
    if (got <= 0) return Look::bad;
    z.next_in = in.data();
    z.avail_in = static_cast<uInt>(got);
    while (state == Z_OK && z.avail_in > 0) {
      z.next_out = out.data();
      z.avail_out = static_cast<uInt>(out.size());
      state = inflate(&z, Z_NO_FLUSH);
      const std::size_t made = out.size() - z.avail_out;
      if (state != Z_OK && state != Z_STREAM_END) return Look::bad;
      if (!header) {
        constexpr std::size_t longest = 64;
        start.append(reinterpret_cast<const char*>(out.data()), std::min(made, longest));
        header = header_in(start);
        if (!header && start.size() >= longest) return Look::bad;
        // libgit2 inflates so much for a header; what is shorter has to end.
        if (header && !of_all && total + made >= longest) return Look::whole;
        if (header && of_all && header->size > header->most) return Look::large;
      }
      total += made;
      if (header && total > header->length + header->size) return Look::bad;
    }
  }
  return header && total == header->length + header->size ? Look::whole : Look::bad;
}

struct Guard {
  git_odb_backend backend{}; // first: libgit2 knows it by its address
  std::vector<fs::path> folders;

  /// GIT_PASSTHROUGH: libgit2 reads it.
  [[nodiscard]] int answer(const fs::path& file, bool of_all) const {
    const Look look = look_at(file, of_all);
    if (look == Look::none || look == Look::whole) return GIT_PASSTHROUGH;
    git_error_set_str(GIT_ERROR_ZLIB, "a loose object is cut, or too large");
    return GIT_ERROR;
  }
  [[nodiscard]] int answer(const git_oid* id, bool of_all) const {
    char text[GIT_OID_HEXSZ + 1];
    const std::string digits = git_oid_tostr(text, sizeof text, id);
    for (const fs::path& folder : folders) {
      const int out = answer(folder / digits.substr(0, 2) / digits.substr(2), of_all);
      if (out != GIT_PASSTHROUGH) return out;
    }
    return GIT_PASSTHROUGH;
  }
  /// All whose names begin so.
  [[nodiscard]] int answer(const git_oid* id, std::size_t length) const {
    constexpr std::size_t of_folder = 2;
    if (length >= GIT_OID_HEXSZ) return answer(id, true);
    if (length < of_folder) return GIT_PASSTHROUGH;
    char text[GIT_OID_HEXSZ + 1];
    const std::string digits = std::string(git_oid_tostr(text, sizeof text, id)).substr(0, length);
    for (const fs::path& folder : folders) {
      std::error_code error;
      fs::directory_iterator at(folder / digits.substr(0, of_folder), error);
      for (; !error && at != fs::directory_iterator(); at.increment(error)) {
        if (!at->path().filename().string().starts_with(digits.substr(of_folder))) continue;
        const int out = answer(at->path(), true);
        if (out != GIT_PASSTHROUGH) return out;
      }
    }
    return GIT_PASSTHROUGH;
  }
};

const Guard& guard_of(git_odb_backend* backend) { return *reinterpret_cast<Guard*>(backend); }

int read(void** /*bytes*/, std::size_t* /*size*/, git_object_t* /*kind*/, git_odb_backend* backend,
         const git_oid* id) {
  return guard_of(backend).answer(id, true);
}
int read_prefix(git_oid* /*found*/, void** /*bytes*/, std::size_t* /*size*/, git_object_t* /*kind*/,
                git_odb_backend* backend, const git_oid* id, std::size_t length) {
  return guard_of(backend).answer(id, length);
}
int read_header(std::size_t* /*size*/, git_object_t* /*kind*/, git_odb_backend* backend,
                const git_oid* id) {
  return guard_of(backend).answer(id, false);
}
void free_guard(git_odb_backend* backend) { delete reinterpret_cast<Guard*>(backend); }

/// The folder, and those that it names, as far as libgit2 follows them.
void add_folders(const fs::path& folder, int depth, std::vector<fs::path>& out) {
  constexpr int deepest = 5;
  constexpr std::size_t most = 100;
  if (out.size() >= most) return;
  out.push_back(folder);
  const text::ReadResult read = text::DiskFiles().read((folder / "info/alternates").string());
  const auto* text = std::get_if<std::string>(&read);
  if (text == nullptr || depth == deepest) return;
  std::string_view left = *text;
  while (!left.empty()) {
    const std::size_t stop = std::min(left.find('\n'), left.size());
    std::string_view line = left.substr(0, stop);
    left.remove_prefix(std::min(stop + 1, left.size()));
    if (line.ends_with('\r')) line.remove_suffix(1);
    if (line.empty() || line.starts_with('#')) continue;
    add_folders(folder / line, depth + 1, out); // an absolute one takes its place
  }
}

} // namespace

bool guard(git_odb& odb, const std::string& objects) {
  auto* made = new Guard;
  git_odb_init_backend(&made->backend, GIT_ODB_BACKEND_VERSION);
  made->backend.read = read;
  made->backend.read_prefix = read_prefix;
  made->backend.read_header = read_header;
  made->backend.free = free_guard;
  add_folders(objects, 0, made->folders);
  constexpr int before_all = 1000;
  if (git_odb_add_backend(&odb, &made->backend, before_all) == 0) return true;
  delete made;
  return false;
}

} // namespace norma::revisions
