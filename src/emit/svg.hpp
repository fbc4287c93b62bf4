// What drawings share.
#pragma once

#include <string>
#include <string_view>

namespace norma::emit {

/// A text inside of an SVG document, or of one of its attributes.
std::string escaped_svg(std::string_view s);

} // namespace norma::emit
