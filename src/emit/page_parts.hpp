// Styles and scripts of the pages for the screen: card.css, card.js, rows.css, sheet.css and
// sheet.js of src/emit, made part of the program.
#pragma once

#include <string_view>

namespace norma::emit {

extern const std::string_view card_style;
extern const std::string_view card_script;
extern const std::string_view rows_style;
extern const std::string_view sheet_style;
extern const std::string_view sheet_script;

} // namespace norma::emit
