// Bytes as a protocol: parse, resolve, plan without a kit, show what was found.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "diag/json.hpp"
#include "diag/terminal.hpp"
#include "model/resolve.hpp"
#include "plan/plan.hpp"
#include "rules/rules.hpp"
#include "syntax/parser.hpp"

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

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace norma;
  text::Sources sources;
  const text::FileId id =
      sources.add("fuzz.norma", std::string(reinterpret_cast<const char*>(data), size));
  diag::Findings findings;
  const syntax::Tree tree = syntax::parse(id, sources, findings);
  check_tree(tree, size);
  const bool sound = findings.empty();
  const auto protocol = model::resolve(tree, sources, sound, findings);
  if (protocol) {
    const plan::Plan plan = plan::make_plan(*protocol, nullptr, {2026, 11, 25});
    rules::apply({*protocol, nullptr, plan, {2026, 11, 25}}, findings);
  }
  findings.settle();
  for (const diag::Diagnostic& d : findings.all()) {
    require(d.span.known() && d.span.begin <= d.span.end && d.span.end <= size);
  }
  for (const char c : diag::render_terminal(findings, sources)) {
    require(static_cast<unsigned char>(c) >= 0x20 || c == '\n');
  }
  require(!diag::render_json(findings, {}, sources).empty());
  return 0;
}
