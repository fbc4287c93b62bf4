// What the viewfinder shows of a view, and its chair from above.
#pragma once

#include <optional>
#include <span>

#include "drawing/display.hpp"
#include "facts/facts.hpp"
#include "plan/plan.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

struct ViewDrawings {
  drawing::Drawing finder;
  drawing::Drawing above;
  diag::Said finder_words; // what it is, and its marks
};
/// An edge of the picture as shot, what lies at it, and what it is called.
struct EdgeRow {
  const plan::FactDef<diag::Teeth>& teeth;
  const diag::Term& called;
  drawing::Spot towards;
};
std::span<const EdgeRow> edge_rows();

/// Are teeth that must show numbered? In brackets those of which not enough is seen, or which are
/// turned too far.
enum class Numbers { none, of_asked };
/// Nothing where the view was not looked at in three dimensions.
std::optional<ViewDrawings> view_drawings(const plan::ViewPlan& view, Numbers numbers,
                                          const wording::Language& in);

/// The same for a card; of a view of the face a plain head.
std::optional<ViewDrawings> card_drawings(const plan::ViewPlan& view, const wording::Language& in);

/// The datum for want of which a view was not looked at in three dimensions; empty where it was, or
/// where something could not be read.
diag::Said missing_for_scene(const plan::ViewPlan& view);

} // namespace norma::emit
