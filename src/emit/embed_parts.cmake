# Writes OUT: files of DIR as raw strings of C++ in norma::SPACE, declared in HEADER; PARTS names
# them, as NAME:FILE with commas between. Run by the build.
set(text "#include \"${HEADER}\"\n\nnamespace norma::${SPACE} {\n\n")
string(REPLACE "," ";" PARTS "${PARTS}")
foreach(part ${PARTS})
  string(REPLACE ":" ";" part ${part})
  list(GET part 0 name)
  list(GET part 1 file)
  file(READ ${DIR}/${file} body)
  string(APPEND text "extern const std::string_view ${name} = R\"norma(${body})norma\";\n")
endforeach()
file(WRITE ${OUT} "${text}\n} // namespace norma::${SPACE}\n")
