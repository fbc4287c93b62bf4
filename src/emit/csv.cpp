#include "emit/csv.hpp"

#include <string_view>

#include "text/utf8.hpp"

namespace norma::emit {

std::string csv_row(const std::vector<std::string>& cells) {
  std::string out;
  for (const std::string& cell : cells) {
    if (&cell != &cells.front()) out += ',';
    std::string plain = text::printable(cell);
    if (!plain.empty() && std::string_view("=+-@").find(plain.front()) != std::string_view::npos)
      plain.insert(plain.begin(), '\'');
    const bool quoted = plain.find_first_of(",\"") != std::string::npos;
    if (!quoted) {
      out += plain;
      continue;
    }
    out += '"';
    for (const char c : plain)
      out += c == '"' ? std::string("\"\"") : std::string(1, c);
    out += '"';
  }
  return out + "\r\n";
}

} // namespace norma::emit
