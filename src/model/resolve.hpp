// A tree to a typed protocol: names, merging, derived views, then lowering.
#pragma once

#include <optional>

#include "diag/diagnostic.hpp"
#include "model/protocol.hpp"
#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::model {

/// The protocol of the file, or nothing where it holds none (reported). `sound`: the parser made no
/// finding; where it did, what is missing is not reported a second time.
std::optional<Protocol> resolve(const syntax::Tree& tree, const text::Sources& sources, bool sound,
                                diag::Findings& findings);

} // namespace norma::model
