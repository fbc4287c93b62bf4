// The views of a series with their second choices, and what they take on the tray.
#pragma once

#include <vector>

#include "plan/plan.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

struct SeriesView {
  const plan::ViewPlan* view = nullptr;
  bool optional = false;
  const plan::ViewPlan* instead_of = nullptr; // it is a second choice that the series does not list
};

/// The views of a series in their order, then those that take their place: each way of `or else
/// view` to its end. Null: all views of the protocol.
std::vector<SeriesView> views_of(const plan::Plan& plan, const model::Series* series);

/// Those that are no second choices.
std::vector<const plan::ViewPlan*> first_choices(const std::vector<SeriesView>& views);

struct TrayThing {
  diag::Said thing;
  int count = 1; // at once
  bool second_choice = false;
  bool goes_in = false;                // into the mouth: each patient has one of one's own
  const kit::Mirror* mirror = nullptr; // the piece of the kit, where it is one
  const kit::Retractor* retractor = nullptr;
};

/// What the views, and the grey card of the protocol, take, and what only second choices take, or
/// take more of; by its text.
std::vector<TrayThing> tray_of(const plan::Plan& plan, const std::vector<SeriesView>& views,
                               const wording::Language& in);

} // namespace norma::emit
