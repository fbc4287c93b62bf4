// The pages of docs/diagnostics as they were when the program was built.
#pragma once

#include <span>
#include <string_view>

namespace norma::cli {

struct Page {
  std::string_view code;
  std::string_view text;
};

std::span<const Page> pages();

} // namespace norma::cli
