// Looks at loose objects before libgit2 reads them: 1.5 goes on for ever on one that is cut.
#pragma once

#include <git2.h>

#include <string>

namespace norma::revisions {

/// From here on `odb` gives no loose object that is cut, no regular file, or larger than such a
/// thing ever is. `objects` is its folder; others that it names (alternates) count, too. False
/// where that cannot be had.
bool guard(git_odb& odb, const std::string& objects);

} // namespace norma::revisions
