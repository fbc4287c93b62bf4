// Mistakes as clinicians make them, and what they are told. In mistakes/*.txt a line `view: ...`
// stands in a view of a small protocol (`protocol: ...` in the protocol, `file: ...` in a file);
// the lines below it are what is said of it. UPDATE_GOLDEN=1 rewrites those.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "model/resolve.hpp"
#include "support/opened.hpp"
#include "support/support.hpp"
#include "text/files.hpp"
#include "wording/wording.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

constexpr std::string_view head = "norma 1\n\nprotocol demo \"Demo\" {\n";
constexpr std::string_view views = "view front \"F\" { }\nview lower \"L\" { }\n";

std::string file_with(const std::string& place, const std::string& text) {
  const std::string header = "for adults\nsensor 36 x 24 mm\n";
  if (place == "view") {
    return fmt::format("{}{}{}view v \"V\" {{\n{}\n}}\n}}\n", head, header, views, text);
  }
  if (place == "protocol") return fmt::format("{}{}{}\n}}\n", head, views, text);
  return text.starts_with("norma") ? text + "\nprotocol p \"P\" { }\n" : "norma 1\n" + text + "\n";
}

struct Told {
  std::string text;
  bool any = false;
  std::size_t findings = 0;
  bool remedy = false; // an edit can be applied
  std::string mended;  // the text with the first remedy applied
  bool help = false;
};

Told tell(const std::string& bytes) {
  text::MemoryFiles files;
  files.put("p.norma", bytes);
  text::Sources sources;
  diag::Findings findings;
  Opened library(files, sources, "");
  const auto* declared = std::get<const model::Declared*>(library.open("p.norma", findings));
  if (declared != nullptr) {
    for (const auto& group : model::groups_of(*declared))
      static_cast<void>(model::resolve(*declared, group, findings));
  }
  findings.settle();
  Told told;
  for (const diag::Diagnostic& d : findings.all()) {
    told.any = true;
    ++told.findings;
    told.text += fmt::format("  {} [{}]\n", wording::english().text(d.message), d.definition->code);
    for (const diag::Said& help : d.help)
      told.text += fmt::format("    help: {}\n", wording::english().text(help));
    for (const diag::Fix& fix : d.fixes) {
      if (!told.remedy) {
        told.mended = bytes;
        told.mended.replace(fix.span.begin, fix.span.end - fix.span.begin, fix.replacement);
      }
      told.remedy = true;
      told.text += fmt::format("    remedy: `{}` -> `{}`\n", sources.text(fix.span),
                               fix.replacement == "\n" ? "a new line" : fix.replacement);
    }
    told.help = told.help || !d.help.empty();
  }
  if (!told.any) told.text = "  (nothing is wrong)\n";
  return told;
}

} // namespace

TEST_CASE("mistakes as clinicians make them get a message that helps") {
  std::size_t entries = 0;
  std::size_t with_remedy = 0;
  std::size_t mended = 0;
  std::size_t without_help = 0;
  for (const auto& entry : fs::directory_iterator(root() / "tests/golden/mistakes")) {
    const std::string old = read_file(entry.path());
    std::istringstream in(old);
    std::string now;
    for (std::string line; std::getline(in, line);) {
      if (line.starts_with(" ")) continue; // what is said: written anew
      if (line.empty()) continue;
      const std::size_t colon = line.find(": ");
      REQUIRE_MESSAGE(colon != std::string::npos, line);
      Told told = tell(file_with(line.substr(0, colon), line.substr(colon + 2)));
      if (!told.any) {
        now += line + "\n" + told.text + "\n";
        continue;
      }
      ++entries;
      if (told.remedy) {
        ++with_remedy;
        CAPTURE(line);
        Told now_told = told;
        for (int step = 0; step < 4 && now_told.remedy; ++step) {
          const std::string before = now_told.text;
          now_told = tell(now_told.mended);
          CAPTURE(now_told.text);
          CHECK(now_told.text != before); // a remedy never leaves things as they were
        }
        if (now_told.findings < told.findings) ++mended;
        if (now_told.findings >= told.findings) told.text += "    (one more thing to say, then)\n";
      }
      now += line + "\n" + told.text + "\n";
      if (!told.remedy && !told.help) {
        ++without_help;
        MESSAGE("no help: ", line);
      }
    }
    if (update_golden()) write_file(entry.path(), now);
    const std::string diff = difference(read_file(entry.path()), now);
    CHECK_MESSAGE(diff.empty(), diff);
  }
  CHECK(entries >= 60);
  CHECK(mended * 2 > entries); // most are mended by the edits that are offered
  CHECK(without_help == 0);
  MESSAGE(entries, " mistakes, ", with_remedy, " with a remedy, ", mended, " mended by remedies, ",
          without_help, " without help");
}

} // namespace norma::test
