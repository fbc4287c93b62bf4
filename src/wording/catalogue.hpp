// The files of texts, made part of the program by the build (embed_texts.cmake).
#pragma once

#include <span>
#include <string_view>

namespace norma::wording {

/// The files, each cut between its lines.
#define NORMA_LANGUAGE(name, tag) std::span<const std::string_view> name##_texts();
#include "wording/languages.def"
#undef NORMA_LANGUAGE

} // namespace norma::wording
