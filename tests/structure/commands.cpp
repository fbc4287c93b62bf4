// The commands as a table: the manual and the completions are made from it.
#include <doctest/doctest.h>

#include <fmt/core.h>

#include <algorithm>
#include <regex>
#include <set>
#include <sstream>
#include <string>

#include "cli/command_table.hpp"
#include "cli/run.hpp"
#include "generated.hpp"
#include "support/support.hpp"
#include "text/version.hpp"

namespace norma::test {
namespace {

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

/// What stands in `text` behind the first `begin` and before the next `end`; "" where either is
/// missing.
std::string between(const std::string& text, const std::string& begin, const std::string& end) {
  const std::size_t from = text.find(begin);
  if (from == std::string::npos) return "";
  const std::size_t start = from + begin.size();
  const std::size_t stop = text.find(end, start);
  return stop == std::string::npos ? "" : text.substr(start, stop - start);
}

/// The command and the options of a command line (behind `norma`) that are not in the table.
std::string unknown_words(std::string_view line) {
  const std::vector<std::string> words = split_command(line);
  REQUIRE(!words.empty());
  const auto& table = cli::command_table();
  const auto command = std::find_if(table.begin(), table.end(),
                                    [&](const auto& c) { return c.name == words.front(); });
  if (command == table.end()) return words.front();
  std::string out;
  for (std::string word : words) {
    std::erase_if(word, [](char c) { return c == '[' || c == ']'; }); // [--check]: may be left out
    if (!word.starts_with("-") || word == "-") continue;              // - is standard input
    const bool known =
        std::any_of(command->options.begin(), command->options.end(), [&](const auto& o) {
          return std::find(o.names.begin(), o.names.end(), word) != o.names.end();
        });
    if (!known) out += word + " ";
  }
  return out;
}

} // namespace

TEST_CASE("docs/man holds the manual that is made from the commands") {
  hold_file("docs/man/norma.1.scd", cli::manual());
}

TEST_CASE("every command runs, has help, and is completed in each shell") {
  const auto& table = cli::command_table();
  REQUIRE(table.size() >= 9);
  const std::string all = cli::run({"--help"}).out;
  for (const cli::CommandRow& c : table) {
    const std::string name(c.name);
    CAPTURE(name);
    CHECK(has(all, fmt::format("\n  {}", name)));
    // Without its files it says what is missing, and not that there is no such command.
    const cli::Outcome bare = cli::run({name});
    // Whoever takes no files does something; a server has nobody to talk to.
    const bool takes_files = !c.argument.name.empty();
    const bool talks = name == "serve";
    CHECK(bare.code == (takes_files || talks ? 2 : 0));
    CHECK(has(bare.err, "required") == (takes_files && !c.argument.optional));
    CHECK(has(bare.err, "standard input") == talks);
    CHECK(has(cli::run({}).err, name));
    for (const std::string_view shell : cli::shells())
      CHECK(has(cli::completions_for(shell), name));
  }
}

TEST_CASE("every option is in the help, the manual and the completions of its command") {
  const std::string manual = cli::manual();
  for (const cli::CommandRow& c : cli::command_table()) {
    const std::string name(c.name);
    CAPTURE(name);
    const cli::Outcome help = cli::run({name, "--help"});
    CHECK(help.code == 0);
    CHECK(has(help.out, std::string(c.help)));
    CHECK(has(help.out, c.argument.name));
    const std::string page = between(manual, "## norma " + name + "\n", "\n#");
    CHECK(has(page, fmt::format("\n_{}_\n", c.argument.name)) == !c.argument.name.empty());
    // Each shell parts the commands in its own way.
    const std::string bash =
        between(cli::completions_for("bash"), "  " + name + ")\n    case", "esac ;;");
    const std::string zsh =
        between(cli::completions_for("zsh"), "  " + name + ")\n    _arguments", " ;;");
    std::istringstream fish(cli::completions_for("fish"));
    std::string fish_lines;
    for (std::string line; std::getline(fish, line);) {
      if (has(line, "__fish_seen_subcommand_from " + name + "'")) fish_lines += line + "\n";
    }
    for (const cli::OptionRow& o : c.options) {
      for (const std::string_view flag : o.names) {
        CAPTURE(std::string(flag));
        CHECK(has(help.out, flag));
        CHECK(has(page, fmt::format("*{}*", flag)));
        CHECK(has(bash, flag));
        CHECK(has(zsh, fmt::format("'*{}[", flag)));
        const bool is_long = flag.starts_with("--");
        CHECK(has(fish_lines,
                  fmt::format(" -{} {} ", is_long ? "l" : "s", flag.substr(is_long ? 2 : 1))));
      }
      const std::string words = cli::joined(cli::choices(o));
      CHECK(has(bash, words));
      CHECK(has(zsh, words));
      CHECK(has(fish_lines, words));
      CHECK(has(page, cli::joined(cli::choices(o), ", ")));
    }
  }
}

TEST_CASE("an option asks for its value, and refuses what is none of its words or numbers") {
  for (const cli::CommandRow& c : cli::command_table()) {
    const std::string name(c.name);
    CAPTURE(name);
    for (const cli::OptionRow& o : c.options) {
      const std::string flag(o.names.back());
      CAPTURE(flag);
      const bool takes_value = !o.value.empty();
      CHECK(takes_value == !(std::holds_alternative<std::monostate>(o.field) ||
                             std::holds_alternative<bool cli::Options::*>(o.field)));
      if (!takes_value) continue;
      CHECK(has(cli::run({name, "x", flag}).err, flag));
      const bool free = cli::choices(o).empty() && o.bounds.most == 0;
      if (free) continue;
      const cli::Outcome refused = cli::run({name, "x", flag, "none of them"});
      CHECK(refused.code == 2);
      CHECK(has(refused.err, flag));
    }
  }
}

TEST_CASE("the examples name commands and options that there are") {
  for (const cli::ExampleRow& e : cli::example_table()) {
    CAPTURE(std::string(e.command));
    CHECK(unknown_words(e.command) == "");
  }
}

TEST_CASE("the hooks run commands that there are") {
  std::istringstream lines(read_file(root() / ".pre-commit-hooks.yaml"));
  std::size_t hooks = 0;
  for (std::string line; std::getline(lines, line);) {
    constexpr std::string_view entry = "  entry: norma ";
    if (!line.starts_with(entry)) continue;
    CAPTURE(line);
    CHECK(unknown_words(line.substr(entry.size())) == "");
    ++hooks;
  }
  CHECK(hooks == 2);
}

TEST_CASE("the table of README.md has every command, and no word that is none") {
  const std::string readme = read_file(root() / "README.md");
  std::istringstream rows(between(readme, "| command |", "\n\n"));
  std::set<std::string> found;
  static const std::regex pattern("`norma ([^`]+)`");
  for (std::string row; std::getline(rows, row);) {
    const std::string first = between(row, "| ", " |");
    for (std::sregex_iterator m(first.begin(), first.end(), pattern), end; m != end; ++m) {
      const std::string command = (*m)[1].str();
      CAPTURE(command);
      CHECK(unknown_words(command) == "");
      found.insert(command.substr(0, command.find(' ')));
    }
  }
  for (const cli::CommandRow& c : cli::command_table())
    CHECK_MESSAGE(found.count(std::string(c.name)) == 1, std::string(c.name));
}

TEST_CASE("the version is that of the project, wherever it is told") {
  const std::string project = read_file(root() / "CMakeLists.txt");
  const std::string version = between(project, "project(norma VERSION ", " ");
  REQUIRE(!version.empty());
  CHECK(text::version() == version);
  CHECK(has(cli::run({"--version"}).out, "norma " + version + ", commit unknown\n"));
  cli::Surroundings built;
  built.commit = "54b52b454f10";
  CHECK(has(cli::run({"--version"}, built).out, ", commit 54b52b454f10\n"));
  const Folder folder;
  const Inside inside(folder.path());
  write_file("p.norma", "norma 1\n");
  CHECK(has(cli::run({"check", "--format", "sarif", "p.norma"}).out,
            fmt::format("\"version\": \"{}\"", version)));
}

} // namespace norma::test
