// What the viewfinder shows of a view, and its chair from above.
#pragma once

#include <optional>

#include "drawing/display.hpp"
#include "plan/plan.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

struct ViewDrawings {
  drawing::Drawing finder;
  drawing::Drawing above;
  bool in_mirror = false;
};
/// Are teeth that must show numbered? In brackets those of which not enough is seen, or which are
/// turned too far.
enum class Numbers { none, of_asked };
/// Nothing where the view was not looked at in three dimensions.
std::optional<ViewDrawings> view_drawings(const plan::ViewPlan& view, Numbers numbers,
                                          const wording::Language& in);

/// The datum for want of which a view was not looked at in three dimensions; empty where it was, or
/// where something could not be read.
diag::Said missing_for_scene(const plan::ViewPlan& view);

} // namespace norma::emit
