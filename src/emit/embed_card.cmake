# Writes OUT: card.css and card.js of DIR as raw strings of C++. Run by the build.
file(READ ${DIR}/card.css style)
file(READ ${DIR}/card.js script)
file(WRITE ${OUT} "#include \"emit/card_parts.hpp\"\n\nnamespace norma::emit {\n\nextern const std::string_view card_style = R\"norma(${style})norma\";\nextern const std::string_view card_script = R\"norma(${script})norma\";\n\n} // namespace norma::emit\n")
