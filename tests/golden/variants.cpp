// The golden corpus once more, in disguise: other line ends, a byte order mark, cut at any place.
#include <doctest/doctest.h>

#include <algorithm>

#include "cases.hpp"
#include "diag/json.hpp"
#include "diag/terminal.hpp"
#include "model/resolve.hpp"
#include "support/support.hpp"
#include "syntax/parser.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

std::vector<fs::path> protocols() {
  std::vector<fs::path> out;
  for (const char* top : {"tests/golden", "protocols"}) {
    for (const auto& entry : fs::recursive_directory_iterator(root() / top)) {
      if (entry.path().extension() == ".norma") out.push_back(entry.path());
    }
  }
  std::sort(out.begin(), out.end());
  return out;
}

struct Read {
  text::Sources sources;
  diag::Findings findings;
};

std::unique_ptr<Read> read(std::string bytes) {
  auto r = std::make_unique<Read>();
  const text::FileId id = r->sources.add("x.norma", std::move(bytes));
  diag::Findings in_text;
  const syntax::Tree tree = syntax::parse(id, r->sources, in_text);
  const bool sound = in_text.empty();
  r->findings.append(std::move(in_text));
  model::resolve(tree, r->sources, sound, r->findings);
  r->findings.settle();
  return r;
}

/// Code, line, column and words of all findings: what must not depend on line ends.
std::string told(const Read& r) {
  std::string out;
  for (const diag::Diagnostic& d : r.findings.all()) {
    const text::Place place = r.sources[d.span.file].place(d.span.begin);
    out += std::string(d.definition->code) + " " + std::to_string(place.line) + ":" +
           std::to_string(place.column) + " " + d.message + "\n";
  }
  return out;
}

bool is_text(const std::string& bytes) {
  return bytes.find('\r') == std::string::npos && bytes.find('\0') == std::string::npos &&
         !bytes.starts_with("\xef\xbb\xbf");
}

} // namespace

TEST_CASE("CRLF and a byte order mark change no finding and no place") {
  const auto files = protocols();
  REQUIRE(files.size() > 20);
  for (const fs::path& file : files) {
    CAPTURE(file.string());
    const std::string plain = read_file(file);
    if (!is_text(plain) || plain.empty()) continue;
    const std::string expected = told(*read(plain));
    // A file that is not UTF-8 tells the number of a byte, which a mark moves.
    if (expected.find("S001") != std::string::npos) continue;
    std::string crlf;
    for (const char c : plain)
      crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
    CHECK(told(*read(crlf)) == expected);
    CHECK(told(*read("\xef\xbb\xbf" + plain)) == expected);
  }
}

TEST_CASE("a file cut at any place is read to its end, and what is told can be shown") {
  for (const fs::path& file : protocols()) {
    CAPTURE(file.string());
    const std::string plain = read_file(file);
    const std::size_t step = std::max<std::size_t>(1, plain.size() / 150);
    for (std::size_t size = 0; size < plain.size(); size += step) {
      CAPTURE(size);
      const auto r = read(plain.substr(0, size));
      const std::string shown = diag::render_terminal(r->findings, r->sources);
      CHECK(std::none_of(shown.begin(), shown.end(),
                         [](unsigned char c) { return c < 0x20 && c != '\n'; }));
      CHECK(!diag::render_json(r->findings, {}, r->sources).empty());
      for (const diag::Diagnostic& d : r->findings.all())
        CHECK(d.span.end <= size);
    }
  }
}

} // namespace norma::test
