// The checklist that an operator works through and signs: before, view by view, after.
#pragma once

#include "emit/document.hpp"
#include "report/report.hpp"

namespace norma::emit {

/// The checklist of a protocol held against a kit. `series` names the series to print; empty: the
/// longest one, or all views where the protocol has no series. What stands against it, as the
/// report has it, is printed first.
Document checklist(const report::Report& report, const report::Held& held, std::string_view series);

} // namespace norma::emit
