// A drawing of what the camera sees of the modelled mouth, and of the same from above, as SVG.
#pragma once

#include <string>

#include "plan/plan.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// The SVG document; "" where the view was not looked at in three dimensions.
std::string view_picture(const plan::ViewPlan& view, const wording::Language& in);

} // namespace norma::emit
