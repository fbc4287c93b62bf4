// What to lay out: for one patient, and for several between two sterilising cycles.
#pragma once

#include <string>

#include "emit/document.hpp"
#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// Of the views of a series that can be had; `series` "": the longest. What the chair has too few
/// of is told, and what is due. Where something could not be read it says DO NOT USE.
Document laid_out(const report::Report& report, const report::Held& held, std::string_view series,
                  int patients, const wording::Language& in);
/// The same as rows of a table: protocol, kit, thing, for one patient, for all, goes into the
/// mouth, bag, only for a second choice.
std::string laid_out_csv(const report::Report& report, const report::Held& held,
                         std::string_view series, int patients, const wording::Language& in);

} // namespace norma::emit
