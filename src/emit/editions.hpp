// Editions of what norma reads and writes: which of them this program knows.
#pragma once

#include "kit/kit.hpp"
#include "model/fingerprint.hpp"
#include "planfile/values.hpp"
#include "words/vocabulary.hpp"

namespace norma::emit::editions {

inline constexpr int language = words::language_edition;
inline constexpr int kit = norma::kit::kit_edition;
inline constexpr int fingerprint = model::fingerprint_edition;
inline constexpr int plan_json = planfile::edition;

} // namespace norma::emit::editions
