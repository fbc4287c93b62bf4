// Every fact of a view: value, where it comes from, formula, what it rests on.
#pragma once

#include <string>

#include "plan/plan.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

std::string explain_view(const plan::ViewPlan& view, const wording::Language& in);

} // namespace norma::emit
