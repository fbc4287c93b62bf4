// Documentation that is run. In README.md and below docs/, fenced blocks are live:
//   ```norma file=NAME   and  ```yaml file=NAME   are written to a folder of the document's own;
//   ```hex file=NAME     the same, the bytes as pairs of hexadecimal digits;
//   ```console           holds `$ norma ...` lines, each followed by what it prints and, where the
//                        exit code is not 0, a last line `(exit N)`; `$ cd FOLDER` holds for all
//                        that follows.
// The folder also holds the project's protocols/ and tests/. UPDATE_GOLDEN=1 rewrites what is
// printed.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "cli/run.hpp"
#include "diag/catalogue.hpp"
#include "support/support.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

struct Block {
  std::string info; // what stands behind the opening fence
  std::vector<std::string> lines;
  std::size_t first = 0; // index of its first line in the document
};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t stop = std::min(text.find('\n', at), text.size());
    out.push_back(text.substr(at, stop - at));
    at = stop + 1;
  }
  return out;
}

std::vector<Block> blocks_of(const std::vector<std::string>& lines) {
  std::vector<Block> out;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!lines[i].starts_with("```")) continue;
    Block b{lines[i].substr(3), {}, i + 1};
    for (++i; i < lines.size() && lines[i] != "```"; ++i)
      b.lines.push_back(lines[i]);
    out.push_back(std::move(b));
  }
  return out;
}

/// Bytes written as pairs of hexadecimal digits.
std::string bytes_of(const std::string& hex) {
  std::istringstream in(hex);
  std::string out;
  for (std::string pair; in >> pair;)
    out += static_cast<char>(std::stoi(pair, nullptr, 16));
  return out;
}

std::string run_command(const std::string& line) {
  std::vector<std::string> words = split_command(line);
  REQUIRE(words.size() > 1);
  if (words.front() == "cd") {
    fs::current_path(words[1]);
    return "";
  }
  REQUIRE_MESSAGE(words.front() == "norma", "only norma is run in documents: ", line);
  words.erase(words.begin());
  const cli::Outcome outcome = cli::run(words);
  std::string out = outcome.out + outcome.err;
  if (!out.empty() && out.back() != '\n') out += '\n';
  if (outcome.code != 0) out += fmt::format("(exit {})\n", outcome.code);
  return out;
}

/// Is `got` what `expected` says? A line `...` stands for any lines.
bool fits(const std::vector<std::string>& expected, const std::vector<std::string>& got) {
  std::size_t g = 0;
  for (std::size_t e = 0; e < expected.size(); ++e) {
    if (expected[e] != "...") {
      if (g >= got.size() || got[g] != expected[e]) return false;
      ++g;
      continue;
    }
    if (e + 1 == expected.size()) return true;
    while (g < got.size() && got[g] != expected[e + 1])
      ++g;
  }
  return g == got.size();
}

struct Console {
  std::string printed; // all that its commands printed
};

/// Runs one console block; with UPDATE_GOLDEN the lines below each command become what it printed,
/// unless they hold a `...`.
Console run_console(Block& block) {
  Console console;
  std::vector<std::string> rewritten;
  for (std::size_t i = 0; i < block.lines.size();) {
    REQUIRE_MESSAGE(block.lines[i].starts_with("$ "),
                    "a console block starts with `$ `: ", block.lines[i]);
    const std::string command = block.lines[i].substr(2);
    CAPTURE(command);
    std::vector<std::string> expected;
    for (++i; i < block.lines.size() && !block.lines[i].starts_with("$ "); ++i) {
      expected.push_back(block.lines[i]);
    }
    const std::string printed = run_command(command);
    console.printed += printed;
    const std::vector<std::string> got = lines_of(printed);
    const bool cut = std::find(expected.begin(), expected.end(), "...") != expected.end();
    rewritten.push_back("$ " + command);
    const auto& kept = update_golden() && !cut ? got : expected;
    rewritten.insert(rewritten.end(), kept.begin(), kept.end());
    if (update_golden() && !cut) continue;
    std::string expected_text;
    for (const std::string& line : expected)
      expected_text += line + "\n";
    CHECK_MESSAGE(fits(expected, got), difference(expected_text, printed));
  }
  block.lines = std::move(rewritten);
  return console;
}

/// Runs a document; gives what each console block printed.
std::vector<std::string> run_document(const fs::path& path) {
  CAPTURE(path.string());
  const std::vector<std::string> lines = lines_of(read_file(path));
  const Folder folder;
  // Copied, not linked: a base must lie below the folder.
  fs::copy(root() / "protocols", folder.path() / "protocols", fs::copy_options::recursive);
  fs::create_directory_symlink(root() / "tests", folder.path() / "tests");
  const Inside inside(folder.path());
  std::vector<std::string> printed;
  std::vector<Block> blocks = blocks_of(lines);
  std::vector<Block> original = blocks;
  for (Block& block : blocks) {
    const std::size_t file = block.info.find(" file=");
    if (file != std::string::npos) {
      std::string text;
      for (const std::string& line : block.lines)
        text += line + "\n";
      const fs::path name = block.info.substr(file + 6);
      if (name.has_parent_path()) fs::create_directories(name.parent_path());
      write_file(name.string(), block.info.starts_with("hex") ? bytes_of(text) : text);
    } else if (block.info == "console") {
      printed.push_back(run_console(block).printed);
    }
  }
  if (update_golden()) {
    std::string out;
    std::size_t at = 0;
    for (std::size_t b = 0; b < blocks.size(); ++b) {
      for (; at < original[b].first; ++at)
        out += lines[at] + "\n";
      for (const std::string& line : blocks[b].lines)
        out += line + "\n";
      at = original[b].first + original[b].lines.size();
    }
    for (; at < lines.size(); ++at)
      out += lines[at] + "\n";
    write_file(path, out);
  }
  return printed;
}

std::vector<fs::path> pages(const fs::path& folder) {
  std::vector<fs::path> out;
  for (const auto& entry : fs::directory_iterator(root() / folder)) {
    if (entry.path().extension() == ".md") out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

} // namespace

TEST_CASE("what README.md and docs/ show is what happens") {
  run_document(root() / "README.md");
  run_document(root() / "DEVELOPERS.md");
  const auto all = pages("docs");
  REQUIRE(!all.empty());
  for (const fs::path& page : all)
    run_document(page);
}

TEST_CASE("the drawings of docs/model.md are what the program draws") {
  for (const auto& drawing : {std::pair{"right", "five"}, std::pair{"upper", "five"},
                              std::pair{"right_mirror", "sides"}}) {
    const std::string view = drawing.first;
    const std::string protocol = drawing.second;
    CAPTURE(view);
    const cli::Outcome drawn = cli::run({"plan", "--on", "2026-11-25", "--picture", view, "--kit",
                                         (root() / "protocols/kits/chair_3.yaml").string(),
                                         (root() / "protocols" / (protocol + ".norma")).string()});
    REQUIRE(drawn.code == 0);
    const fs::path file = root() / "docs/pictures" / (view + ".svg");
    if (update_golden()) write_file(file, drawn.out);
    CHECK_MESSAGE(read_file(file) == drawn.out, "drawn anew with UPDATE_GOLDEN=1");
  }
}

TEST_CASE("a finding's page shows just that finding, and a mended example without it") {
  const auto all = pages("docs/diagnostics");
  REQUIRE(!all.empty());
  for (const fs::path& page : all) {
    const std::string code = page.stem().string();
    CAPTURE(code);
    const diag::Definition* d = diag::catalogue::find(code);
    REQUIRE_MESSAGE(d != nullptr, "a page for a code that does not exist");
    CHECK(read_file(page).starts_with(fmt::format("# {} {}\n", d->code, d->name)));
    const std::vector<std::string> printed = run_document(page);
    REQUIRE_MESSAGE(printed.size() >= 2, "an example and a mended one");
    const std::string mark = fmt::format("[{} {}]", d->code, d->name);
    CHECK(printed.front().find(mark) != std::string::npos);
    for (const diag::Definition* other : diag::catalogue::all()) {
      if (other == d) continue;
      CHECK_MESSAGE(printed.front().find(fmt::format("[{} {}]", other->code, other->name)) ==
                        std::string::npos,
                    "the example shows another finding, too: ", std::string(other->name));
    }
    CHECK(printed.back().find(mark) == std::string::npos);
  }
}

} // namespace norma::test
