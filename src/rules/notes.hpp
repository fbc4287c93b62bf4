// The rows of notes.def as sentences: `note::lens_ends_at(needed, end)`.
#pragma once

#include "diag/sentence.hpp"

namespace norma::rules::note {

#define NORMA_NOTE(name, arguments) inline constexpr diag::Sentence<arguments> name{"note." #name};
#include "rules/notes.def"
#undef NORMA_NOTE

} // namespace norma::rules::note
