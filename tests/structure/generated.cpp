#include "generated.hpp"

#include <doctest/doctest.h>

#include <cstdlib>

#include "support/support.hpp"

namespace norma::test {
namespace {

bool update() {
  const char* asked = std::getenv("UPDATE_GENERATED");
  const bool yes = asked != nullptr && std::string_view(asked) == "1";
  REQUIRE_MESSAGE((!yes || std::getenv("CI") == nullptr), "nothing is rewritten under CI");
  return yes;
}

} // namespace

void hold_between(const std::filesystem::path& file, std::string_view begin, std::string_view end,
                  const std::string& content) {
  CAPTURE(file.string());
  const std::string old = read_file(root() / file);
  const std::string first = std::string(begin) + "\n";
  const std::size_t from = old.find(first);
  REQUIRE_MESSAGE(from != std::string::npos, "the line is missing: ", std::string(begin));
  const std::size_t start = from + first.size();
  const std::size_t stop = old.find(std::string(end) + "\n", start);
  REQUIRE_MESSAGE(stop != std::string::npos, "the line is missing: ", std::string(end));
  if (update()) {
    write_file(root() / file, old.substr(0, start) + content + old.substr(stop));
    return;
  }
  CHECK_EQ(difference(content, old.substr(start, stop - start)), "");
}

void hold_file(const std::filesystem::path& file, const std::string& content) {
  CAPTURE(file.string());
  if (update()) write_file(root() / file, content);
  REQUIRE_MESSAGE(std::filesystem::exists(root() / file), "UPDATE_GENERATED=1 makes it");
  CHECK_EQ(difference(content, read_file(root() / file)), "");
}

} // namespace norma::test
