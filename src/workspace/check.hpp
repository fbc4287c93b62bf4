// Resolved protocols held against kits: planned, judged, exceptions applied.
#pragma once

#include "workspace/workspace.hpp"

namespace norma::workspace {

/// Nothing where it was cancelled.
std::optional<Checked> checked(std::shared_ptr<const Resolved> resolved, const Ask& ask,
                               Store& store, const Cancel& cancel);

} // namespace norma::workspace
