// Bytes to a tree. Always gives a tree; what cannot be read is a finding and a junk node.
#pragma once

#include "diag/diagnostic.hpp"
#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::syntax {

/// Blocks may stand this deep in each other.
inline constexpr int deepest_block = 8;

/// Parses the text of file `id`. Time and memory are linear in its size.
Tree parse(text::FileId id, std::string_view bytes, diag::Findings& findings);
/// The same of file `id` of `sources`.
inline Tree parse(text::FileId id, const text::Sources& sources, diag::Findings& findings) {
  return parse(id, sources[id].bytes(), findings);
}

} // namespace norma::syntax
