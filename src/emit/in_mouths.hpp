// Views in many mouths: as text, and as JSON for other programs.
#pragma once

#include <string>

#include "report/in_mouths.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// One protocol held against one kit.
std::string in_mouths(const report::Report& report, const report::InMouths& of,
                      const wording::Language& in);
/// All of a run; `amount` as it was asked for. Shares are numbers from 0 to 1.
std::string in_mouths_json(const report::Report& report, const std::vector<report::InMouths>& all,
                           const report::Amount& amount);

} // namespace norma::emit
