// The tree: its nodes cover what is written, and what cannot be read is found where it stands.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "diag/diagnostic.hpp"
#include "syntax/parser.hpp"

namespace norma::syntax {
namespace {

struct Parsed {
  text::Sources sources;
  diag::Findings findings;
  Tree tree;

  explicit Parsed(std::string bytes) {
    const text::FileId id = sources.add("p", std::move(bytes));
    tree = parse(id, sources, findings);
  }
  /// `kind:text` of every node but file, items and blocks.
  [[nodiscard]] std::vector<std::string> leaves() const {
    static const char* names[] = {"file",   "item", "block", "word",    "text",
                                  "number", "unit", "ratio", "fnum",    "date",
                                  "comma",  "eq",   "pm",    "comment", "junk"};
    std::vector<std::string> out;
    for (std::uint32_t i = 0; i < tree.nodes().size(); ++i) {
      const NodeView n{tree, i};
      if (n.kind() == NodeKind::file || n.kind() == NodeKind::item || n.kind() == NodeKind::block)
        continue;
      out.push_back(std::string(names[static_cast<std::size_t>(n.kind())]) + ":" +
                    std::string(sources.text(n.span())));
    }
    return out;
  }
};
using Leaves = std::vector<std::string>;

} // namespace

TEST_CASE("literals: a date before a ratio before a fraction before a decimal") {
  CHECK(Parsed("a 2026-09-01 1:1.5 1/125 s 0.5 f/5.6 12 mm\n").leaves() ==
        Leaves{"word:a", "date:2026-09-01", "ratio:1:1.5", "number:1/125", "unit:s", "number:0.5",
               "fnum:f/5.6", "number:12", "unit:mm"});
}

TEST_CASE("nothing may touch the end of a token: one finding for the whole run") {
  for (const char* run : {"1:2x", "12-17", "f/22a", "2026-09-01x", "45\xc2\xb0", "3..4"}) {
    CAPTURE(run);
    const Parsed p("a " + std::string(run) + "\nb 1\n");
    CHECK(p.findings.all().size() == 1);
    CHECK(p.leaves().back() == "number:1"); // the next line is read
  }
}

TEST_CASE("comments are nodes, up to the line's end") {
  const Parsed p("# first\na 1 # second\n");
  CHECK(p.leaves() == Leaves{"comment:# first", "word:a", "number:1", "comment:# second"});
  CHECK(p.findings.empty());
}

TEST_CASE("behind a comma a statement goes on, over comments and empty lines") {
  const Parsed p("a 1,\n\n  # why\n  2\nb 3\n");
  CHECK(p.findings.empty());
  CHECK(p.leaves() ==
        Leaves{"word:a", "number:1", "comma:,", "comment:# why", "number:2", "word:b", "number:3"});
}

TEST_CASE("five faults of one file are told at their lines") {
  const Parsed p("a 0,5\nb \"open\nc 1:2x\n}\nd \xe2\x80\x9cx\xe2\x80\x9d\n");
  std::vector<std::uint32_t> lines;
  for (const auto& d : p.findings.all())
    lines.push_back(p.sources[d.span.file].place(d.span.begin).line);
  CHECK(lines == std::vector<std::uint32_t>{1, 2, 3, 4, 5});
}

TEST_CASE("findings begin and end between characters, wherever one stands that has several bytes") {
  const std::string text = "norma 1\n\nprotocol p \"P\" { # note\n  for adults\n  view a \"A\" {\n"
                           "    must show facial 13 to 23,\n      45\n  }\n  series s = a\n}\n";
  std::size_t found = 0;
  for (std::size_t at = 0; at <= text.size(); ++at) {
    for (const char* sign : {"\u00e9", "\u7259", "\U0001f600", "\u2028"}) {
      CAPTURE(at);
      CAPTURE(sign);
      const std::string typed = text.substr(0, at) + sign + text.substr(at);
      const Parsed p(typed);
      const auto inside = [&](std::uint32_t place) {
        return place < typed.size() && (static_cast<unsigned char>(typed[place]) & 0xc0u) == 0x80u;
      };
      for (const diag::Diagnostic& d : p.findings.all()) {
        CAPTURE(d.definition->code);
        CHECK(!inside(d.span.begin));
        CHECK(!inside(d.span.end));
        ++found;
      }
    }
  }
  CHECK(found > text.size());
}

TEST_CASE("what no node covers is blank") {
  for (const char* text : {"nm,#oa 0:\n", "a \"x\" { b 1 # c\n }\n",
                           "\xef\xbb\xbf"
                           "a 1\r\n",
                           "view v {\n view w {\n", "a 1,,2 ;; }"}) {
    CAPTURE(text);
    const Parsed p(text);
    std::string rest = text;
    for (std::uint32_t i = 0; i < p.tree.nodes().size(); ++i) {
      const NodeView n{p.tree, i};
      if (n.kind() == NodeKind::file || n.kind() == NodeKind::item || n.kind() == NodeKind::block)
        continue;
      for (std::uint32_t b = n.span().begin; b < n.span().end; ++b)
        rest[b] = ' ';
    }
    // Children lie inside of their parents, one behind the other.
    const auto& nodes = p.tree.nodes();
    for (std::size_t parent = 0; parent < nodes.size(); ++parent) {
      for (std::size_t child = parent + 1; child < nodes[parent].next; child = nodes[child].next) {
        CHECK(nodes[child].begin >= nodes[parent].begin);
        CHECK(nodes[child].end <= nodes[parent].end);
      }
    }
    CHECK(rest.find_first_not_of(" \t\r\n{}\xef\xbb\xbf") == std::string::npos);
  }
}

TEST_CASE("a million braces: bounded depth, few findings, all read") {
  const Parsed p("a " + std::string(1000000, '{'));
  CHECK(!p.findings.empty());
  CHECK(p.findings.all().size() < 20);
  CHECK(p.tree.nodes().size() < 100);
  const Parsed closing(std::string(1000000, '}'));
  CHECK(closing.findings.all().size() + closing.findings.dropped() >= 1);
  CHECK(closing.findings.all().size() <= diag::Findings::kept);
}

} // namespace norma::syntax
