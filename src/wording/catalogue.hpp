// The files of texts, made part of the program by the build (embed_texts.cmake).
#pragma once

#include <string_view>

namespace norma::wording {

std::string_view english_texts();

} // namespace norma::wording
