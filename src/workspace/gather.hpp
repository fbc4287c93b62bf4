// What was found of many files, as one report.
#pragma once

#include <string>
#include <vector>

#include "report/report.hpp"
#include "workspace/stages.hpp"

namespace norma::workspace {

/// `checked`: of each of `paths`, held against some of `kits`. What comes out depends on their
/// order and on nothing else: files are numbered anew (kits, then `paths`, then what they build on
/// by name), each is told of once. At most `most` findings are listed.
report::Report gather(const std::vector<std::string>& paths, std::vector<Checked> checked,
                      const Kits& kits, words::Date on, std::size_t most = diag::Findings::most);

} // namespace norma::workspace
