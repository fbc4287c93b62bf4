// Plans for other programs: a report as a plan file (planfile/).
#pragma once

#include <string>
#include <string_view>

#include "planfile/document.hpp"
#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// All plans of a run, with what was found and what was not checked; `view`: only this view of each
/// plan, "" for all.
planfile::Document plan_document(const report::Report& report, const wording::Language& in,
                                 std::string_view view = {});
/// The same as JSON.
std::string plan_json(const report::Report& report, const wording::Language& in,
                      std::string_view view = {});

} // namespace norma::emit
