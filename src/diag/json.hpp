// Findings for machines.
#pragma once

#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "text/source.hpp"

namespace norma::diag {

/// Something that could not be checked, and the datum that is missing.
struct NotChecked {
  std::string view; // "" where it holds for the whole protocol
  std::string kit;
  std::string what;
  std::string missing;
};

/// A JSON object {"findings": [...], "not_checked": [...], "counts": {...}}, indented by two, with
/// a new line at the end. Bytes that are not UTF-8 become U+FFFD.
std::string render_json(const Findings& findings, const std::vector<NotChecked>& not_checked,
                        const text::Sources& sources);

} // namespace norma::diag
