// A teacher's marking sheet: what each view of a protocol asks of its picture, with room for points
// and reasons.
#pragma once

#include <string>

#include "emit/document.hpp"
#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// Of the views of a series in its order; `series` "": the longest. Where something could not be
/// read it says DO NOT USE, and has no criterion.
Document marks(const report::Report& report, const report::Held& held, std::string_view series,
               const wording::Language& in);
/// The same criteria as a table (RFC 4180): protocol, view, title, criterion, points, reason.
std::string marks_csv(const report::Report& report, const report::Held& held,
                      std::string_view series, const wording::Language& in);

} // namespace norma::emit
