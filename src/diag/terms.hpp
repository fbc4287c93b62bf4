// Words and phrases that stand for one thing in several sentences. Their texts stand in src/wording
// under `term.` and the name.
#pragma once

#include "diag/sentence.hpp"

namespace norma::diag {

// clang-format off
// NORMA_TERM(name, number of arguments)
#define NORMA_TERMS(NORMA_TERM) \
  NORMA_TERM(view, 1) \
  NORMA_TERM(series, 1) \
  NORMA_TERM(the_protocol, 0) \
  NORMA_TERM(builds_on_itself, 2)
// clang-format on

namespace term {
#define NORMA_TERM(name, count) inline constexpr Sentence<count> name{"term." #name};
NORMA_TERMS(NORMA_TERM)
#undef NORMA_TERM
} // namespace term

} // namespace norma::diag
