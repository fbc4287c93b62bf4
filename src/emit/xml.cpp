#include "emit/xml.hpp"

#include "text/utf8.hpp"

namespace norma::emit {

std::string xml_escaped(std::string_view plain) {
  const std::string printable = text::printable(plain, true);
  std::string out;
  out.reserve(printable.size());
  for (std::size_t i = 0; i < printable.size(); ++i) {
    const std::string_view rest = std::string_view(printable).substr(i);
    if (rest.starts_with("\xEF\xBF\xBE") || rest.starts_with("\xEF\xBF\xBF")) {
      i += 2;
      continue;
    }
    switch (printable[i]) {
    case '&': out += "&amp;"; break;
    case '<': out += "&lt;"; break;
    case '>': out += "&gt;"; break;
    case '"': out += "&quot;"; break;
    case '\n': out += "&#10;"; break;
    default: out += printable[i];
    }
  }
  return out;
}

} // namespace norma::emit
