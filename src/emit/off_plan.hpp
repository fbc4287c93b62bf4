// How far shots may be off: as text, as a drawing, and as JSON for other programs.
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

/// Bars of one view's margins as an SVG document; "" where it has none.
std::string off_plan_picture(const report::ViewOffPlan& view, const wording::Language& in);
/// How far it is held one way, and what breaks then.
diag::Said margin_said(const margins::Margin& margin);

} // namespace norma::emit
