#include "words/token.hpp"

namespace norma::words {
namespace {

bool is_escaped(char c) { return c == '"' || c == '\\'; }

} // namespace

std::string Quoted::text() const {
  if (written.find('\\') == std::string_view::npos) return std::string(written);
  std::string out;
  out.reserve(written.size());
  for (std::size_t i = 0; i < written.size(); ++i) {
    if (written[i] == '\\' && i + 1 < written.size() && is_escaped(written[i + 1])) ++i;
    out += written[i];
  }
  return out;
}

bool has_bad_escape(std::string_view literal) {
  for (std::size_t i = literal.find('\\'); i < literal.size(); i = literal.find('\\', i + 2)) {
    const bool inside = i + 2 < literal.size(); // the closing quote is not escaped
    if (!inside || !is_escaped(literal[i + 1])) return true;
  }
  return false;
}

std::string joined(std::span<const Token> tokens) {
  std::string out;
  for (const Token& t : tokens)
    out.append(out.empty() ? "" : " ").append(t.text);
  return out;
}

} // namespace norma::words
