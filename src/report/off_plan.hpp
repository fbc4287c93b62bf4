// How far the shots of a run may be off what is planned.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "margins/margin.hpp"
#include "report/report.hpp"

namespace norma::report {

struct ViewOffPlan {
  diag::Subject about;
  const plan::ViewPlan* view = nullptr;
  std::optional<margins::ViewMargins> margins; // nothing: it was not looked at
  diag::Said missing;                          // why it was not
};

struct OffPlan {
  const Held* held = nullptr;
  std::vector<ViewOffPlan> views; // in the protocol's order
};

/// Of each protocol that was held against a kit, in the report's order; of the views of these names
/// alone, of all where there are none. The report must outlive what comes out. The same for every
/// number of threads.
std::vector<OffPlan> off_plan(const Report& report, const std::vector<std::string>& views,
                              unsigned threads);

} // namespace norma::report
