// Texts within XML.
#pragma once

#include <string>
#include <string_view>

namespace norma::emit {

/// `plain` as the text of an element or the value of an attribute in double quotes. What could act
/// on a terminal is written out (text::printable), and with it all that XML 1.0 forbids, section
/// 2.2, production Char (https://www.w3.org/TR/xml/#charsets), but U+FFFE and U+FFFF: those go. A
/// new line stays one, as &#10;.
std::string xml_escaped(std::string_view plain);

} // namespace norma::emit
