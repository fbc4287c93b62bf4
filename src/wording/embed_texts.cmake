# Writes OUT: the texts of a language, FILE, as raw strings of C++, under NAME. Run by the build. A
# string may be 65,536 bytes long in every compiler: the file is cut between its lines.
file(READ ${FILE} rest)
set(pieces "")
string(LENGTH "${rest}" left)
while(left GREATER 0)
  string(SUBSTRING "${rest}" 0 32768 piece)
  if(left GREATER 32768)
    string(FIND "${piece}" "\n" stop REVERSE)
    math(EXPR stop "${stop} + 1")
  else()
    set(stop ${left})
  endif()
  string(SUBSTRING "${rest}" 0 ${stop} piece)
  string(SUBSTRING "${rest}" ${stop} -1 rest)
  string(LENGTH "${rest}" left)
  string(APPEND pieces "      R\"norma_texts(${piece})norma_texts\",\n")
endwhile()
file(WRITE ${OUT} "#include \"wording/catalogue.hpp\"\n\nnamespace norma::wording {\n\n"
  "std::span<const std::string_view> ${NAME}_texts() {\n"
  "  static constexpr std::string_view pieces[] = {\n${pieces}  };\n  return pieces;\n}\n\n"
  "} // namespace norma::wording\n")
