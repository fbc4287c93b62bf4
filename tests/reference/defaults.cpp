// docs/model.md lists every value that norma takes for granted; it and the table in the code say
// the same.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <sstream>
#include <string>
#include <vector>

#include "physics/defaults.hpp"
#include "support/support.hpp"

namespace norma::physics {
namespace {

std::string_view to_text(Origin origin) {
  switch (origin) {
  case Origin::published: return "published";
  case Origin::handbook: return "handbook";
  case Origin::assumed: return "assumed";
  }
  return "";
}

std::string row_of(const Default& d) {
  const std::string value = fmt::format("{}{}{}", d.value, d.unit.empty() ? "" : " ", d.unit);
  return fmt::format("| {} | {} | {} | {} |", d.name, value, to_text(d.origin), d.source);
}

/// Rows of the table under the heading `Defaults`.
std::vector<std::string> rows_in_docs() {
  std::istringstream in(test::read_file(test::root() / "docs" / "model.md"));
  std::vector<std::string> out;
  bool inside = false;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("## ")) inside = line == "## Defaults";
    if (inside && line.starts_with("| ") && !line.starts_with("| what |")) out.push_back(line);
  }
  return out;
}

} // namespace

TEST_CASE("docs/model.md shows the defaults as the code has them, in the same order") {
  std::vector<std::string> expected;
  for (const Default* d : defaults::all)
    expected.push_back(row_of(*d));
  REQUIRE(!expected.empty());
  std::string want;
  std::string got;
  for (const std::string& row : expected)
    want += row + "\n";
  for (const std::string& row : rows_in_docs())
    got += row + "\n";
  CHECK_MESSAGE(got == want, test::difference(want, got));
}

} // namespace norma::physics
