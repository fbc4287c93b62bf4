// Phrases that facts, open questions and acts are made of: what is no number is a row with typed
// arguments, never a sentence.
#pragma once

#include "diag/sentence.hpp"

namespace norma::facts::phrase {

#define NORMA_PHRASE(name, arguments)                                                              \
  inline constexpr diag::Sentence<arguments> name{"phrase." #name};
#include "facts/phrases.def"
#undef NORMA_PHRASE

} // namespace norma::facts::phrase
