// Where bytes come from and go to: standard input and output, or a test.
#pragma once

#include <cstddef>
#include <functional>
#include <string_view>

namespace norma::server {

struct Wire {
  /// Waits for bytes and puts at most `room` of them at `into`; 0 where there are no more.
  std::function<std::size_t(char* into, std::size_t room)> read{};
  /// False where nobody takes them any more.
  std::function<bool(std::string_view bytes)> write{};
};

} // namespace norma::server
