#include "emit/document_pages.hpp"

namespace norma::emit {
namespace {

using drawing::FlowEntry;
using drawing::Piece;

FlowEntry entry_of(const Block& block) {
  switch (block.kind) {
  case BlockKind::title: return {Piece::title, block.text};
  case BlockKind::sheet: return {Piece::title, block.text, {}, true};
  case BlockKind::heading: return {Piece::heading, block.text};
  case BlockKind::subheading: return {Piece::subheading, block.text};
  case BlockKind::bullet:
  case BlockKind::under: return {Piece::item, block.text};
  case BlockKind::tick: return {Piece::tick, block.text};
  case BlockKind::blank: return {Piece::fields, "", {{block.text, false, true}}};
  case BlockKind::fields: {
    FlowEntry out{Piece::fields, block.text};
    for (const Field& f : block.fields)
      out.fields.push_back({f.text, f.box, f.line});
    return out;
  }
  case BlockKind::paragraph: break;
  }
  return {Piece::text, block.text};
}

} // namespace

std::string title_of(const Document& document) {
  return document.empty() ? std::string() : document.front().text;
}

drawing::Paper as_paper(const std::vector<Document>& documents, const PaperSize& paper,
                        const wording::Language& in) {
  drawing::Paper out;
  out.language = in.tag();
  for (const Document& document : documents) {
    drawing::Flow& flow = out.flows.emplace_back();
    flow.width = paper.height; // upright
    flow.height = paper.width;
    flow.name = title_of(document);
    if (out.title.empty()) out.title = flow.name;
    for (const Block& block : document)
      flow.entries.push_back(entry_of(block));
  }
  return out;
}

} // namespace norma::emit
