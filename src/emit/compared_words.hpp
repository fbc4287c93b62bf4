// The rows of compared.def as sentences: `compared::becomes(word, before, after)`.
#pragma once

#include "diag/sentence.hpp"

namespace norma::emit::compared {

#define NORMA_COMPARED(name, arguments)                                                            \
  inline constexpr diag::Sentence<arguments> name{"compared." #name};
#include "emit/compared.def"
#undef NORMA_COMPARED

} // namespace norma::emit::compared
