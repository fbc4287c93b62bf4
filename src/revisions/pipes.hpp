// Pipes and devices in place of git's files: opening one would wait for ever, or never end.
#pragma once

#include <string>

namespace norma::revisions {

/// Is there any where libgit2 reads to open the repository around the current folder, or to find
/// a revision in it? `given`: its folder, where the environment names one; else "".
bool pipes_in_repository(const std::string& given);

} // namespace norma::revisions
