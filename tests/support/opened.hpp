// Protocols with all that they build on, one after the other, as a workspace makes them; what tests
// of the front end share.
#pragma once

#include <memory>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "workspace/workspace.hpp"

namespace norma::test {

class Opened {
 public:
  /// Places in what is opened are those of `sources`, which holds nothing yet.
  Opened(const text::Files& files, text::Sources& sources, std::string root)
      : space_(std::shared_ptr<const text::Files>(std::shared_ptr<void>(), &files)),
        sources_(sources), root_(std::move(root)) {}

  /// The protocol of a file, null where it holds none. What there is to say of a file that was read
  /// is told once.
  std::variant<const model::Declared*, text::ReadError> open(const std::string& path,
                                                             diag::Findings& findings) {
    const auto answer = space_.snapshot().built(path, root_);
    if (const auto* missing = std::get_if<workspace::NoFile>(&answer)) return missing->error;
    held_.push_back(std::get<std::shared_ptr<const workspace::Built>>(answer));
    for (const workspace::File& file : held_.back()->files) {
      if (!read_.insert(file.version->id).second) continue;
      sources_.share(file.version->source); // versions are numbered as they are read
      findings.append(*file.findings);
    }
    return held_.back()->protocol.get();
  }
  [[nodiscard]] std::size_t files_read() const { return read_.size(); }

 private:
  workspace::Workspace space_;
  text::Sources& sources_;
  std::string root_;
  std::vector<std::shared_ptr<const workspace::Built>> held_;
  std::set<text::FileId> read_;
};

} // namespace norma::test
