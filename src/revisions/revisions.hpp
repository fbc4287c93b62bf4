// Files of a git repository's revisions, read out of its trees; nothing is checked out.
//
// A name REV:path means the file `path`, from the top of the tree, as it was in the revision REV;
// it is cut at the first colon. A name that is on the disk means what lies there.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "text/files.hpp"

namespace norma::revisions {

/// Files of revisions of the repository that the current folder lies in, and the disk's. It is
/// opened where the first revision is named, and what a revision means stays so: whoever commits
/// meanwhile changes nothing. No setting of the user or the machine counts, but for
/// safe.directory: git's own word for trusting a repository that belongs to somebody else.
std::unique_ptr<text::Files> files();

/// The top of the work tree that the current folder lies in.
std::variant<std::string, text::ReadError> work_tree();

/// A key of git's configuration and its value.
using Setting = std::pair<std::string, std::string>;
/// Puts `settings` into the repository's own configuration; how many had another value before.
std::variant<std::size_t, text::ReadError> set(const std::vector<Setting>& settings);

} // namespace norma::revisions
