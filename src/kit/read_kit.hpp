// YAML bytes to a typed kit, with findings.
#pragma once

#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"
#include "text/source.hpp"

namespace norma::kit {

/// Reads the kit in file `id` of `sources`. Always gives a kit: what could not be read is broken
/// or absent in it, and a finding says so.
Kit read_kit(text::FileId id, const text::Sources& sources, diag::Findings& findings);

} // namespace norma::kit
