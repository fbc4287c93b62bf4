// A protocol, what it builds on and its kits, followed on the disk: what comes of them is shown
// anew as often as one of them is another.
//
// They are read again and again, and compared as bytes: so it does not matter how an editor saves
// (in place, by a new file under the old name, over a link), on which file system, or that a base
// is not there yet. Texts that are as before cost their reading.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "live/shown.hpp"
#include "text/files.hpp"
#include "words/literal.hpp"
#include "workspace/workspace.hpp"

namespace norma::live {

struct Followed {
  std::string path;
  std::vector<std::string> kits{};
  std::string root{};
  std::string group{};
  const wording::Language* language = &wording::english();
};

class Follower {
 public:
  Follower(std::shared_ptr<const text::Files> files, Followed what);

  /// What is to be shown where that is another than before; null where it is not.
  std::shared_ptr<const Shown> look(words::Date on);
  /// The file that could not be read at the last look, and why; nothing where all could.
  [[nodiscard]] const std::optional<workspace::NoFile>& missing() const { return missing_; }
  /// Does the protocol say something for the group that was asked for?
  [[nodiscard]] bool has_group() const { return has_group_; }

 private:
  std::shared_ptr<const Shown> lost(workspace::NoFile file);

  Followed what_;
  workspace::Workspace workspace_;
  Keeper keeper_;
  std::shared_ptr<const workspace::Checked> last_;
  std::optional<workspace::NoFile> missing_;
  bool has_group_ = true;
};

} // namespace norma::live
