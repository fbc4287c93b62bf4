// The golden corpus once more, in disguise: other line ends, a byte order mark, cut at any place.
#include <doctest/doctest.h>

#include <algorithm>

#include "cases.hpp"
#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "model/fingerprint.hpp"
#include "model/resolve.hpp"
#include "support/opened.hpp"
#include "support/support.hpp"
#include "syntax/parser.hpp"
#include "syntax/tidy.hpp"
#include "text/files.hpp"
#include "wording/wording.hpp"

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
  text::MemoryFiles files;
  text::Sources sources;
  diag::Findings findings;
};

/// A protocol read from memory, for all its groups; bases come from the folder of `beside`.
std::unique_ptr<Read> read(std::string bytes, const fs::path& beside) {
  auto r = std::make_unique<Read>();
  for (const auto& entry : fs::directory_iterator(beside.parent_path())) {
    if (entry.path().extension() == ".norma")
      r->files.put(entry.path().filename().string(), read_file(entry.path()));
  }
  const std::string name = beside.filename().string();
  r->files.put(name, std::move(bytes));
  Opened library(r->files, r->sources, "");
  const auto opened = library.open(name, r->findings);
  const model::Declared* declared = std::get<const model::Declared*>(opened);
  if (declared != nullptr) {
    for (const auto& group : model::groups_of(*declared))
      static_cast<void>(model::resolve(*declared, group, r->findings));
  }
  r->findings.settle();
  return r;
}

/// Code, line, column and words of all findings: what must not depend on line ends.
std::string told(const Read& r) {
  std::string out;
  for (const diag::Diagnostic& d : r.findings.all()) {
    const text::Place place = r.sources[d.span.file].place(d.span.begin);
    out += std::string(d.definition->code) + " " + std::to_string(place.line) + ":" +
           std::to_string(place.column) + " " + wording::english().text(d.message) + "\n";
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
    const std::string expected = told(*read(plain, file));
    // A file that is not UTF-8 tells the number of a byte, which a mark moves.
    if (expected.find("S001") != std::string::npos) continue;
    std::string crlf;
    for (const char c : plain)
      crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
    CHECK(told(*read(crlf, file)) == expected);
    CHECK(told(*read("\xef\xbb\xbf" + plain, file)) == expected);
  }
}

TEST_CASE("a file cut at any place is read to its end, and what is told can be shown") {
  for (const fs::path& file : protocols()) {
    CAPTURE(file.string());
    const std::string plain = read_file(file);
    // A million braces need not be cut a million times; under sanitizers a sample must do.
#ifdef __SANITIZE_ADDRESS__
    constexpr std::size_t most_cuts = 150;
#else
    constexpr std::size_t most_cuts = 4000;
#endif
    const std::size_t step = std::max<std::size_t>(1, plain.size() / most_cuts);
    for (std::size_t size = 0; size < plain.size(); size += step) {
      CAPTURE(size);
      const auto r = read(plain.substr(0, size), file);
      const std::string shown =
          emit::findings_text(report::findings_alone(r->findings, r->sources), wording::english());
      CHECK(std::none_of(shown.begin(), shown.end(),
                         [](unsigned char c) { return c < 0x20 && c != '\n'; }));
      CHECK(!emit::findings_json(report::findings_alone(r->findings, r->sources)).empty());
      for (const diag::Diagnostic& d : r->findings.all())
        CHECK((d.span.file != text::FileId{0} || d.span.end <= size));
    }
  }
}

namespace {

/// The text in the one layout; nothing where the parser found something.
std::optional<std::string> tidied(const std::string& bytes) {
  text::Sources sources;
  diag::Findings findings;
  const text::FileId file = sources.add("x.norma", bytes);
  const syntax::Tree tree = syntax::parse(file, sources, findings);
  if (!findings.empty()) return std::nullopt;
  return syntax::tidied(tree, sources[file]);
}

/// Codes and words of all findings, sorted: what must not depend on the layout.
std::string codes(const Read& r) {
  std::vector<std::string> lines;
  for (const diag::Diagnostic& d : r.findings.all())
    lines.push_back(std::string(d.definition->code) + " " + wording::english().text(d.message) +
                    "\n");
  std::sort(lines.begin(), lines.end());
  std::string out;
  for (const std::string& line : lines)
    out += line;
  return out;
}

std::string fingerprints(const std::string& bytes, const fs::path& beside) {
  text::MemoryFiles files;
  for (const auto& entry : fs::directory_iterator(beside.parent_path())) {
    if (entry.path().extension() == ".norma")
      files.put(entry.path().filename().string(), read_file(entry.path()));
  }
  const std::string name = beside.filename().string();
  files.put(name, bytes);
  text::Sources sources;
  diag::Findings findings;
  Opened library(files, sources, "");
  const auto opened = library.open(name, findings);
  const model::Declared* declared = std::get<const model::Declared*>(opened);
  std::string out;
  if (declared == nullptr) return out;
  for (const auto& group : model::groups_of(*declared)) {
    const model::Fingerprint f = model::fingerprint(*declared, group);
    out += f.pictures + " " + f.everything + "\n";
  }
  return out;
}

/// All comments of a text, as one line each.
std::string comments(const std::string& bytes) {
  text::Sources sources;
  diag::Findings findings;
  const text::FileId file = sources.add("x.norma", bytes);
  const syntax::Tree tree = syntax::parse(file, sources, findings);
  std::string out;
  for (std::uint32_t i = 0; i < tree.nodes().size(); ++i) {
    const syntax::NodeView node{tree, i};
    if (node.kind() != syntax::NodeKind::comment) continue;
    std::string text(sources.text(node.span()));
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
      text.pop_back();
    out += text + "\n";
  }
  return out;
}

} // namespace

TEST_CASE("tidied: the same findings, fingerprint and comments; tidying twice changes nothing") {
  std::size_t seen = 0;
  for (const fs::path& file : protocols()) {
    CAPTURE(file.string());
    const std::string plain = read_file(file);
    const auto once = tidied(plain);
    if (!once) continue;
    ++seen;
    const auto twice = tidied(*once);
    REQUIRE_MESSAGE(twice.has_value(), *once);
    CHECK_EQ(difference(*once, *twice), "");
    CHECK(comments(*once) == comments(plain));
    CHECK_EQ(difference(codes(*read(plain, file)), codes(*read(*once, file))), "");
    CHECK(fingerprints(*once, file) == fingerprints(plain, file));
  }
  CHECK(seen > 100);
}

TEST_CASE("the shipped protocols stand in the one layout") {
  std::size_t seen = 0;
  for (const auto& entry : fs::recursive_directory_iterator(root() / "protocols")) {
    if (entry.path().extension() != ".norma") continue;
    ++seen;
    CAPTURE(entry.path().string());
    const std::string text = read_file(entry.path());
    const auto tidy = tidied(text);
    REQUIRE(tidy.has_value());
    CHECK_EQ(difference(*tidy, text), "");
  }
  CHECK(seen > 0);
}

TEST_CASE("each remedy that is offered as certain can be applied, and mends its finding") {
  std::size_t applied = 0;
  for (const fs::path& file : protocols()) {
    CAPTURE(file.string());
    const std::string plain = read_file(file);
    const auto before = read(plain, file);
    for (const diag::Diagnostic& d : before->findings.all()) {
      if (d.fixes.empty() || d.span.file != text::FileId{0}) continue;
      CAPTURE(wording::english().text(d.message));
      const diag::Fix& fix = d.fixes.front();
      std::string mended = plain;
      mended.replace(fix.span.begin, fix.span.end - fix.span.begin, fix.replacement);
      const auto after = read(mended, file);
      const bool still = std::any_of(after->findings.all().begin(), after->findings.all().end(),
                                     [&](const diag::Diagnostic& o) {
                                       return o.definition == d.definition && o.span == d.span &&
                                              o.message == d.message;
                                     });
      CHECK_FALSE(still);
      ++applied;
    }
  }
  CHECK(applied > 10);
}

TEST_CASE("a protocol comes out the same where what it declares is let go of on the way") {
  std::size_t views = 0;
  for (const fs::path& path : protocols()) {
    CAPTURE(path.string());
    const auto made = [&](bool let_go) {
      Read r;
      for (const auto& entry : fs::directory_iterator(path.parent_path())) {
        if (entry.path().extension() == ".norma")
          r.files.put(entry.path().filename().string(), read_file(entry.path()));
      }
      const std::string name = path.filename().string();
      Opened library(r.files, r.sources, "");
      const model::Declared* declared =
          std::get<const model::Declared*>(library.open(name, r.findings));
      std::string out;
      if (declared == nullptr) return out;
      const auto group = model::groups_of(*declared).front();
      const model::Protocol p = let_go
                                    ? model::resolve(model::Declared(*declared), group, r.findings)
                                    : model::resolve(*declared, group, r.findings);
      r.findings.settle();
      out = told(r);
      for (const std::string& content : p.contents)
        out += content + "\n";
      for (const model::View& v : p.views) {
        out += v.name + " " + std::to_string(v.content) + "\n";
        ++views;
      }
      return out;
    };
    CHECK(made(true) == made(false));
  }
  CHECK(views > 500);
}

} // namespace norma::test
