// The views of a run in many mouths of their group.
#pragma once

#include <optional>
#include <vector>

#include "mouths/shares.hpp"
#include "report/report.hpp"

namespace norma::report {

/// How many mouths, from where in the sequence, on how many threads.
struct Amount {
  std::size_t mouths = 1000;
  std::uint64_t seed = 1;
  unsigned threads = 1;
};

struct ViewInMouths {
  diag::Subject about;
  const plan::ViewPlan* view = nullptr;
  std::optional<mouths::Shares> shares; // nothing: it was not looked at
  diag::Said missing;                   // why it was not
  /// What its fate hangs on; empty where it holds in all or in none.
  std::vector<mouths::Hangs> hangs;
  bool opens_wide = false; // each mouth opens by its own measure
};

struct InMouths {
  const Held* held = nullptr;
  physics::Dentition dentition = physics::Dentition::adult;
  std::size_t asked = 0;
  std::size_t left_out = 0; // no arch could be laid
  std::size_t spaced = 0;
  std::vector<ViewInMouths> views; // in the protocol's order
};

/// What is missing of a view that was not looked at in three dimensions.
diag::Said why_not_looked_at(const plan::ViewPlan& view);

/// Of each protocol that was held against a kit, in the report's order; it must outlive what comes
/// out. The same for every number of threads.
std::vector<InMouths> in_mouths(const Report& report, const Amount& amount);

} // namespace norma::report
