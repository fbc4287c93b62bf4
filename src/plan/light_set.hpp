// What is set for the light of a view, decided once for all that say it.
#pragma once

#include "plan/plan.hpp"

namespace norma::plan {

struct LightSet {
  enum class Is {
    by_camera, // it exposes by itself
    none,      // no lamp is known
    steady,    // the lamp does not flash
    automatic, // the lamp sets itself
    power,     // the flash is set to it
    short_of,  // full power is not enough
    not_settled
  };
  Is is = Is::not_settled;
  diag::Value power{};                 // of Is::power
  std::optional<Stops> power_spread{}; // the same, where it is known
  std::optional<Stops> shortfall{};    // of Is::short_of
  diag::Said why{};                    // of Is::not_settled; empty where nobody can say
  friend bool operator==(const LightSet&, const LightSet&) = default;
};
LightSet light_set(const kit::Kit* kit, const ViewPlan& view);

} // namespace norma::plan
