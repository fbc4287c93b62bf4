// Waits for files to become other ones, for whoever works on them anew at each save. What counts
// are bytes: it does not matter how an editor saves (in place, by a new file under the old name,
// over a link). The kernel says at once that something happened in a file's folder (inotify); where
// it does not, on a network's disk, say, the files are read every other second.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "text/descriptor.hpp"
#include "text/files.hpp"

namespace norma::session {

/// A file, and the bytes that were worked on; nothing where it could not be read.
struct Seen {
  std::string path;
  std::optional<std::string> bytes;
};

class Watch {
 public:
  explicit Watch(const text::Files& files);

  /// From now on these; a save since their bytes were read is not missed. `folders`: in which a new
  /// file whose name ends so counts, too.
  void follow(std::vector<Seen> files, const std::vector<std::string>& folders,
              std::vector<std::string> endings);
  /// Waits until one of them is another, and until nothing was saved for a little while; false once
  /// `stopped` is true, which is asked several times a second.
  bool changed(const std::function<bool()>& stopped);

 private:
  [[nodiscard]] bool another() const;
  void look_at_folder(const std::string& folder);
  /// Waits for news from the kernel, so many milliseconds at most: did a new file come that counts?
  enum class News { none, some, new_file };
  News wait(int milliseconds);

  const text::Files& files_;
  text::Descriptor kernel_; // less than 0: it tells nothing
  std::vector<Seen> seen_;
  std::vector<std::string> endings_;
  std::vector<std::string> looked_at_; // folders
};

} // namespace norma::session
