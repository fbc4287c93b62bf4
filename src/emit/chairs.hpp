// A protocol held against several chairs: which view can be had where, and the least that would
// mend what cannot.
#pragma once

#include <string>
#include <vector>

#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// A table of views by kits for one protocol (one group) that was held against several kits, then
/// for each kit what stands against it and the first remedy.
std::string chairs(const report::Report& report, const std::vector<const report::Held*>& held,
                   const wording::Language& in);

} // namespace norma::emit
