// textDocument/inlayHint: what a kit makes of a line, beside it.
#pragma once

#include <vector>

#include "diag/sentence.hpp"
#include "text/source.hpp"
#include "wording/wording.hpp"
#include "workspace/stages.hpp"

namespace norma::server {

struct Hint {
  text::Span span; // of what it stands behind
  std::string text;
};

/// Hints in the file with this number. Where a line holds for several views and kits that make
/// different things of it, there is none.
std::vector<Hint> hints_of(const workspace::Checked& checked, text::FileId file,
                           const wording::Language& language);

} // namespace norma::server
