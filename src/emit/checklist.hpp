// The checklist that an operator works through and signs: before, view by view, after.
#pragma once

#include "emit/document.hpp"
#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// The checklist of a protocol held against a kit. `series` names the series to print; empty: the
/// longest one, or all views where the protocol has no series. What stands against it, as the
/// report has it, is printed first. Where something could not be read it says DO NOT USE and what
/// is missing, and holds nothing to tick; `report::unread_of` tells.
Document checklist(const report::Report& report, const report::Held& held, std::string_view series,
                   const wording::Language& in);

/// What stands in place of a checklist of a file that no protocol could be read in.
Document no_checklist(const report::Report& report, const report::File& file,
                      const wording::Language& in);

} // namespace norma::emit
