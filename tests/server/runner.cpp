// Sessions as golden files: cases/NAME/session is played, cases/NAME/expected is what is said.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <filesystem>

#include "server/uri.hpp"
#include "session.hpp"
#include "support/support.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  for (std::size_t i = text.find(what); i != std::string::npos;
       i = text.find(what, i + with.size()))
    text.replace(i, what.size(), with);
  return text;
}

std::string transcript(const fs::path& folder) {
  Player player;
  std::string out;
  int section = 0;
  for (const std::string& bytes : sections_of(read_file(folder / "session"), folder)) {
    out += fmt::format("--- {}\n", ++section);
    for (server::Out message : player.play(bytes)) {
      // What it can do stands in one case.
      if (message.contains("result") && message["result"].contains("capabilities") &&
          folder.filename() != "start")
        message["result"]["capabilities"] = {
            {"positionEncoding", message["result"]["capabilities"]["positionEncoding"]}};
      out += message.dump(2, ' ', false, server::Out::error_handler_t::replace) + "\n";
    }
  }
  if (player.state().ended()) out += fmt::format("--- exit {}\n", *player.state().ended());
  out = replaced(out, server::uri_of(folder.string()), "$ROOT");
  return replaced(out, folder.string(), "$DIR");
}

} // namespace

TEST_CASE("sessions") {
  std::vector<fs::path> cases;
  for (const auto& entry : fs::directory_iterator(root() / "tests/server/cases"))
    cases.push_back(entry.path());
  std::sort(cases.begin(), cases.end());
  REQUIRE(cases.size() > 5);
  for (const fs::path& folder : cases) {
    CAPTURE(folder.filename().string());
    const std::string got = transcript(folder);
    if (update_golden()) write_file(folder / "expected", got);
    REQUIRE_MESSAGE(fs::exists(folder / "expected"), "no expected transcript");
    const std::string diff = difference(read_file(folder / "expected"), got);
    CHECK_MESSAGE(diff.empty(), diff);
  }
}

} // namespace norma::test
