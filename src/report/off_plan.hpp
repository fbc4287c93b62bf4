// How far the shots of a run may be off what is planned.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "margins/margin.hpp"
#include "margins/together.hpp"
#include "report/report.hpp"

namespace norma::report {

/// Of one thing that can be off: one standard deviation (degrees or millimetres), and who says so.
struct Spread {
  enum class By { tolerance, assumed }; // the view's own tolerance, or norma's choice
  margins::Error what;
  double size = 0;
  By by = By::assumed;
};

struct ViewOffPlan {
  diag::Subject about;
  const plan::ViewPlan* view = nullptr;
  std::optional<margins::ViewMargins> margins; // nothing: it was not looked at
  diag::Said missing;                          // why it was not
  std::vector<Spread> spreads;                 // of what can be off in it
  std::optional<margins::Together> together;   // nothing: not asked for, or it has no margins
};

struct OffPlan {
  const Held* held = nullptr;
  std::vector<ViewOffPlan> views; // in the protocol's order
};

/// How many shots in which all is off at once, from where in the sequence, on how many threads.
struct Shots {
  std::size_t shots = 200;
  std::uint64_t seed = 1;
  unsigned threads = 1;
};

/// Of each protocol that was held against a kit, in the report's order; of the views of these names
/// alone, of all where there are none. The report must outlive what comes out. The same for every
/// number of threads.
std::vector<OffPlan> off_plan(const Report& report, const std::vector<std::string>& views,
                              const Shots& shots);

} // namespace norma::report
