// Bytes to a tree. Always gives a tree; what cannot be read is a finding and a junk node.
#pragma once

#include "diag/diagnostic.hpp"
#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::syntax {

/// Blocks may stand this deep in each other.
inline constexpr int deepest_block = 8;

/// Parses file `id` of `sources`. Time and memory are linear in the file's size.
Tree parse(text::FileId id, const text::Sources& sources, diag::Findings& findings);

} // namespace norma::syntax
