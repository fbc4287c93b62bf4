#include "work.hpp"

#include <doctest/doctest.h>

namespace norma::test {

std::string changed(std::string text, std::string_view from, std::string_view to) {
  const std::size_t at = text.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, "not in the text: ", std::string(from));
  text.replace(at, from.size(), to);
  return text;
}

} // namespace norma::test
