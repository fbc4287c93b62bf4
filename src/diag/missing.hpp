// The data for want of which a question stays open: one row each. Their texts stand in src/wording
// under `missing.` and the name.
#pragma once

#include "diag/sentence.hpp"

namespace norma::diag {

// clang-format off
// NORMA_MISSING(name, number of arguments)
#define NORMA_ALL_MISSING(NORMA_MISSING) \
  NORMA_MISSING(model_of_them, 0) \
  NORMA_MISSING(this_patients_sizes, 0) \
  NORMA_MISSING(kit, 0) \
  NORMA_MISSING(readable_kit, 0) \
  NORMA_MISSING(adopted, 0)
// clang-format on

namespace missing {
#define NORMA_MISSING(name, count) inline constexpr Sentence<count> name{"missing." #name};
NORMA_ALL_MISSING(NORMA_MISSING)
#undef NORMA_MISSING
} // namespace missing

} // namespace norma::diag
