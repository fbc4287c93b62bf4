// Which norma this is.
#pragma once

#include <string_view>

namespace norma::text {

/// The project's version, as the top CMakeLists.txt says it: 0.1.0.
std::string_view version();

} // namespace norma::text
