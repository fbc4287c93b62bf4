// What is set for one view, as cards say it.
#pragma once

#include <string>
#include <vector>

#include "plan/walk/walk.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// What is set: large, with what it is, and what there is to know of it.
struct CardSetting {
  std::string what;
  std::string value;
  std::string note;
  plan::Part part = plan::Part::count;
  bool stays = false; // it is set already
};

/// Ratio, aperture, and flash or light; `unknown` in the place of what nobody knows.
std::vector<CardSetting> card_settings(const plan::Plan& plan, const plan::ViewPlan& view,
                                       const diag::Said& unknown, const wording::Language& in);

} // namespace norma::emit
