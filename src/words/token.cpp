#include "words/token.hpp"

namespace norma::words {

Unquoted unquote(std::string_view literal) {
  Unquoted out;
  if (literal.size() >= 2) literal = literal.substr(1, literal.size() - 2);
  out.text.reserve(literal.size());
  for (std::size_t i = 0; i < literal.size(); ++i) {
    if (literal[i] == '\\' && i + 1 < literal.size() &&
        (literal[i + 1] == '"' || literal[i + 1] == '\\')) {
      out.text += literal[++i];
    } else {
      if (literal[i] == '\\' && out.bad_escape == std::string::npos) out.bad_escape = i + 1;
      out.text += literal[i];
    }
  }
  return out;
}

} // namespace norma::words
