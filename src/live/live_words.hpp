// The rows of live.def as sentences: `said::more_views(count)`.
#pragma once

#include "diag/sentence.hpp"

namespace norma::live::said {

#define NORMA_LIVE(name, arguments) inline constexpr diag::Sentence<arguments> name{"live." #name};
#include "live/live.def"
#undef NORMA_LIVE

} // namespace norma::live::said
