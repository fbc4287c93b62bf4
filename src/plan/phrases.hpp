// Phrases that facts, open questions and acts are made of: what is no number is a row with typed
// arguments, never a sentence.
#pragma once

#include "diag/sentence.hpp"

namespace norma::plan::phrase {

#define NORMA_PHRASE(name, arguments)                                                              \
  inline constexpr diag::Sentence<arguments> name{"phrase." #name};
#include "plan/phrases.def"
#undef NORMA_PHRASE

} // namespace norma::plan::phrase
