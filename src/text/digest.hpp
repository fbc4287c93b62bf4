// SHA-256, as hexadecimal digits.
#pragma once

#include <string>
#include <string_view>

namespace norma::text {

/// 64 digits. FIPS 180-4, by libmd.
std::string sha256(std::string_view bytes);

} // namespace norma::text
