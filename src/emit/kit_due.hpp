// What of a kit has to be looked at, or measured, again.
#pragma once

#include <string>
#include <vector>

#include "kit/kit.hpp"
#include "wording/wording.hpp"
#include "words/literal.hpp"

namespace norma::emit {

/// One line for each that is due on the day `on`, or whose day lies ahead.
std::vector<std::string> due_lines(const kit::Kit& kit, words::Date on,
                                   const wording::Language& in);

} // namespace norma::emit
