// Style and script of the page of cards: src/emit/card.css and card.js, made part of the program.
#pragma once

#include <string_view>

namespace norma::emit {

extern const std::string_view card_style;
extern const std::string_view card_script;

} // namespace norma::emit
