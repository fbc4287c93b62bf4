// The files of texts, made part of the program by the build (embed_texts.cmake).
#pragma once

#include <span>
#include <string_view>

namespace norma::wording {

/// The file, cut between its lines.
std::span<const std::string_view> english_texts();

} // namespace norma::wording
