// textDocument/codeAction: what would mend a finding, and all that is safe at once.
#pragma once

#include <string>
#include <vector>

#include "diag/sentence.hpp"
#include "server/findings.hpp"

namespace norma::server {

struct Action {
  diag::Said title;
  const Told* mends = nullptr; // null: it mends several
  std::vector<Edit> edits;
  bool preferred = false; // it means what the writer meant for certain
};

/// Each edit of a finding that touches `range`.
std::vector<Action> quick_fixes(const std::vector<Told>& found, Range range);
/// The safe edits of all findings in the file at `path` that do not meet; none where there are
/// none.
std::vector<Edit> safe_edits(const std::vector<Told>& found, const std::string& path);

} // namespace norma::server
