// YAML bytes to a typed kit, with findings.
#pragma once

#include <string_view>

#include "diag/diagnostic.hpp"
#include "kit/kit.hpp"
#include "text/source.hpp"

namespace norma::kit {

/// Reads the kit in the text of file `id`. Always gives a kit: what could not be read is broken or
/// absent in it, and a finding says so.
Kit read_kit(text::FileId id, std::string_view bytes, diag::Findings& findings);
/// The same of file `id` of `sources`.
inline Kit read_kit(text::FileId id, const text::Sources& sources, diag::Findings& findings) {
  return read_kit(id, sources[id].bytes(), findings);
}

} // namespace norma::kit
