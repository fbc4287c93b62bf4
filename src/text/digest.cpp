#include "text/digest.hpp"

#include <fmt/core.h>
#include <sys/types.h>
// libmd wants sys/types.h before it
#include <sha2.h>

#include <array>
#include <cstdint>

namespace norma::text {

std::string sha256(std::string_view bytes) {
  SHA2_CTX context;
  SHA256Init(&context);
  SHA256Update(&context, reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  std::array<std::uint8_t, SHA256_DIGEST_LENGTH> digest{};
  SHA256Final(digest.data(), &context);
  std::string out;
  for (const std::uint8_t byte : digest)
    out += fmt::format("{:02x}", byte);
  return out;
}

} // namespace norma::text
