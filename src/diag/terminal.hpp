// Findings for people: place, message, the line with the place marked, notes, help.
#pragma once

#include <string>

#include "diag/diagnostic.hpp"
#include "text/source.hpp"

namespace norma::diag {

/// All findings as text, each ending with a blank line. Nothing in it can act on a terminal.
std::string render_terminal(const Findings& findings, const text::Sources& sources);

} // namespace norma::diag
