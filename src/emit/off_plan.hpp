// How far shots may be off: as text, and as JSON for other programs.
#pragma once

#include <string>

#include "report/off_plan.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// One protocol held against one kit.
std::string off_plan(const report::Report& report, const report::OffPlan& of,
                     const wording::Language& in);
/// All of a run. Sizes are degrees and millimetres, shares numbers from 0 to 1.
std::string off_plan_json(const report::Report& report, const std::vector<report::OffPlan>& all,
                          std::uint64_t seed);

/// What is broken: `17 is hidden`.
diag::Said broken_said(const margins::Broken& broken);
/// What is off, and which way.
diag::Said error_said(margins::Error what);
diag::Said way_said(margins::Way way);
/// As it is told: never more than was found, in tenths below 10 and whole above.
diag::Measure size_said(margins::Error what, double size);

} // namespace norma::emit
