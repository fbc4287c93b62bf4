# Writes OUT: the texts of a language, FILE, as a raw string of C++, under NAME. Run by the build.
file(READ ${FILE} body)
file(WRITE ${OUT} "#include \"wording/catalogue.hpp\"\n\nnamespace norma::wording {\n\n"
  "std::string_view ${NAME}_texts() {\n  return R\"norma_texts(${body})norma_texts\";\n}\n\n"
  "} // namespace norma::wording\n")
