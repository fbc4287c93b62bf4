// The rows of frames.def as sentences: `frame::tightest(value, reserve)`.
#pragma once

#include "diag/sentence.hpp"

namespace norma::emit::frame {

#define NORMA_FRAME(name, arguments)                                                               \
  inline constexpr diag::Sentence<arguments> name{"frame." #name};
#include "emit/frames.def"
#undef NORMA_FRAME

} // namespace norma::emit::frame
