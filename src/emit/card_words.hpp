// The rows of cards.def as sentences: `card::place(number, all)`.
#pragma once

#include "diag/sentence.hpp"

namespace norma::emit::card {

#define NORMA_CARD(name, arguments) inline constexpr diag::Sentence<arguments> name{"card." #name};
#include "emit/cards.def"
#undef NORMA_CARD

} // namespace norma::emit::card
