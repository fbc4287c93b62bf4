// The checklist that an operator works through and signs: before, view by view, after.
#pragma once

#include "diag/diagnostic.hpp"
#include "emit/document.hpp"
#include "plan/plan.hpp"

namespace norma::emit {

/// The checklist of one plan. `series` names the series to print; empty: the longest one, or all
/// views where the protocol has no series. `findings` are those of the whole run; the ones that
/// stand against this plan are printed first.
Document checklist(const plan::Plan& plan, const diag::Findings& findings, std::string_view series);

} // namespace norma::emit
