// Bytes as a protocol, which may build on another: parse, resolve, plan without a kit, show, tidy.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "model/fingerprint.hpp"
#include "model/resolve.hpp"
#include "model/show.hpp"
#include "plan/plan.hpp"
#include "rules/rules.hpp"
#include "support/opened.hpp"
#include "syntax/parser.hpp"
#include "syntax/tidy.hpp"
#include "text/files.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

/// Nodes are nested, in order, and inside the file.
void check_tree(const norma::syntax::Tree& tree, std::size_t size) {
  const auto& nodes = tree.nodes();
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    require(nodes[i].begin <= nodes[i].end && nodes[i].end <= size);
    require(nodes[i].next > i && nodes[i].next <= nodes.size());
    for (std::size_t child = i + 1; child < nodes[i].next; child = nodes[child].next) {
      require(nodes[child].begin >= nodes[i].begin && nodes[child].end <= nodes[i].end);
      require(nodes[child].next <= nodes[i].next);
    }
  }
}

constexpr const char* base = R"(norma 1
protocol base "Base" {
  for adults
  sensor 36 x 24 mm
  every mouth view {
    ratio 1:2
    aperture f/22 to f/32
  }
  view front "Front" {
    others must keep ratio
    must show facial 13 to 23
    for children, mixed teeth { ratio 1:1.5 }
  }
  view left "Left" { camera from left, 60 deg from midline }
  view right "Right", same as left, for the other side { }
  series all = front, left, right optional
}
)";

/// Tidied text is read without a finding, is as tidy as it gets, and asks for the same.
void check_tidy(const norma::syntax::Tree& tree, const norma::text::Source& source,
                const std::string& fingerprints) {
  using namespace norma;
  const std::string once = syntax::tidied(tree, source);
  text::MemoryFiles files;
  files.put("fuzz.norma", once);
  files.put("base.norma", base);
  text::Sources sources;
  diag::Findings in_text;
  const text::FileId id = sources.add("tree.norma", once);
  const syntax::Tree again = syntax::parse(id, sources, in_text);
  require(in_text.empty());
  require(syntax::tidied(again, sources[id]) == once);
  diag::Findings findings;
  text::Sources texts;
  test::Opened library(files, texts, "");
  const auto opened = library.open("fuzz.norma", findings);
  const model::Declared* declared = std::get<const model::Declared*>(opened);
  std::string now;
  if (declared != nullptr) {
    for (const auto& group : model::groups_of(*declared))
      now += model::fingerprint(*declared, group).everything;
  }
  require(now == fingerprints);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace norma;
  const std::string bytes(reinterpret_cast<const char*>(data), size);
  text::MemoryFiles files;
  files.put("fuzz.norma", bytes);
  files.put("base.norma", base);
  text::Sources sources;
  const text::FileId id = sources.add("tree.norma", bytes);
  diag::Findings in_text;
  const syntax::Tree tree = syntax::parse(id, sources, in_text);
  check_tree(tree, size);

  diag::Findings findings;
  text::Sources texts;
  test::Opened library(files, texts, "");
  const auto opened = library.open("fuzz.norma", findings);
  const model::Declared* declared = std::get<const model::Declared*>(opened);
  std::string fingerprints;
  if (declared != nullptr) {
    for (const auto& group : model::groups_of(*declared)) {
      const model::Protocol protocol = model::resolve(*declared, group, findings);
      const plan::Plan plan = plan::make_plan(protocol, nullptr, {words::Date{2026, 11, 25}});
      rules::apply({protocol, nullptr, plan, {2026, 11, 25}, {}}, findings);
      fingerprints += model::fingerprint(*declared, group).everything;
      require(!model::shown(
                   *declared, group,
                   [&](text::FileId f) -> const text::Source& { return texts[f]; }, findings)
                   .empty());
    }
  }
  findings.settle();
  for (const diag::Diagnostic& d : findings.all()) {
    require(d.span.known() && d.span.begin <= d.span.end &&
            d.span.end <= texts[d.span.file].bytes().size());
  }
  for (const char c :
       emit::findings_text(report::findings_alone(findings, texts), wording::english())) {
    require(static_cast<unsigned char>(c) >= 0x20 || c == '\n');
  }
  require(
      !emit::findings_json(report::findings_alone(findings, texts), wording::english()).empty());
  if (in_text.empty()) check_tidy(tree, sources[id], fingerprints);
  return 0;
}
