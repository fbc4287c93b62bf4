// The commands as a table: the manual and the completions are made from it.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "cli/command_table.hpp"
#include "cli/run.hpp"
#include "generated.hpp"
#include "support/support.hpp"

namespace norma::test {

TEST_CASE("docs/man holds the manual that is made from the commands") {
  hold_file("docs/man/norma.1.scd", cli::manual());
}

TEST_CASE("every command runs, has help, and is completed in each shell") {
  const auto table = cli::command_table();
  REQUIRE(table.size() >= 9);
  for (const cli::CommandRow& c : table) {
    CAPTURE(c.name);
    CHECK(cli::run({c.name, "--help"}).code == 0);
    // Without its files it says what is missing, and not that there is no such command.
    const cli::Outcome bare = cli::run({c.name});
    CHECK(bare.code == 2);
    CHECK(bare.err.find("required") != std::string::npos);
    CHECK(cli::run({}).err.find(c.name) != std::string::npos);
    for (const char* shell : {"bash", "zsh", "fish"}) {
      CAPTURE(std::string(shell));
      const std::string script = cli::completions_for(shell);
      CHECK(script.find(c.name) != std::string::npos);
      for (const cli::OptionRow& o : c.options) {
        const std::string name = o.names.back().substr(std::string(shell) == "fish" ? 2 : 0);
        CAPTURE(name);
        CHECK(script.find(name) != std::string::npos);
      }
    }
  }
  for (const cli::ExampleRow& e : cli::example_table()) {
    CAPTURE(e.command);
    const std::string first = e.command.substr(0, e.command.find(' '));
    CHECK(std::any_of(table.begin(), table.end(), [&](const auto& c) { return c.name == first; }));
  }
}

} // namespace norma::test
