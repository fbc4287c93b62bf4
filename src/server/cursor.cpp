#include "server/cursor.hpp"

#include <algorithm>
#include <optional>

#include "model/problem.hpp"
#include "model/statement.hpp"

namespace norma::server {
namespace {

using syntax::NodeKind;
using words::TokenKind;

/// Only blanks lie between.
bool touches(const text::Source& source, std::size_t end, std::size_t offset) {
  const std::string_view between = source.bytes().substr(end, offset - end);
  return std::all_of(between.begin(), between.end(), [](char c) { return c == ' ' || c == '\t'; });
}

} // namespace

std::vector<words::Token> tokens_of(syntax::NodeView item, const text::Source& source) {
  std::vector<words::Token> out;
  for (const syntax::NodeView node : item.children()) {
    if (const auto kind = model::token_kind(node.kind())) {
      out.push_back({*kind, source.text(node.span()), node.span()});
    } else if (node.kind() == NodeKind::unit && !out.empty()) {
      words::Token& number = out.back();
      number.span.end = node.span().end;
      number.text = source.text(number.span);
    }
  }
  return out;
}

Head head_of(std::span<const words::Token> tokens, unsigned place) {
  Head out;
  if (tokens.empty() || tokens.front().kind != TokenKind::word) return out;
  const bool in_block = (place & (words::in_file | words::in_protocol)) == 0;
  const std::string_view first = tokens.front().text;
  out.removes = in_block && first == "no";
  const std::size_t before = in_block && (first == "no" || first == "also") ? 1 : 0;
  const auto rest = tokens.subspan(before);
  if (rest.empty()) return out;
  out.word = out.removes ? model::word_taken_away(rest, place) : model::longest_word(rest, place);
  if (out.word == nullptr) return out;
  out.used = before + (out.removes ? out.word->absence.size() : out.word->parts.size());
  if (out.word->keys.empty()) return out;
  const bool has_key =
      out.used < tokens.size() && std::find(out.word->keys.begin(), out.word->keys.end(),
                                            tokens[out.used].text) != out.word->keys.end();
  out.needs_key = !has_key;
  if (has_key) ++out.used;
  return out;
}

unsigned inside(syntax::NodeView item, unsigned place, const text::Source& source) {
  const auto tokens = tokens_of(item, source);
  const Head head = head_of(tokens, place);
  if (head.word == nullptr) return 0;
  const std::string_view name = head.word->word->name;
  if (name == "protocol") return words::in_protocol;
  if (name == "every mouth view") return words::in_every;
  if (name == "every face view") return words::in_every_face;
  if (name == "view") return words::in_view;
  if (name == "face view") return words::in_face;
  if (name == "change view") return words::in_view | words::in_face;
  if (name == "for" && place != words::in_protocol) return place;
  return 0;
}

Spot spot_at(const syntax::Tree& tree, const text::Source& source, std::size_t offset) {
  Spot out;
  syntax::NodeView parent = tree.root();
  while (true) {
    std::optional<syntax::NodeView> here;
    for (const syntax::NodeView child : parent.children()) {
      if (child.kind() != NodeKind::item || child.span().begin > offset) continue;
      if (child.span().end >= offset || touches(source, child.span().end, offset)) here = child;
    }
    if (!here) return out;
    const auto block = model::block_of(*here);
    const bool closed = block && source.bytes()[block->span().end - 1] == '}';
    const bool in_block =
        block && offset > block->span().begin && (offset < block->span().end || !closed);
    if (block && !in_block && offset > block->span().begin) return out; // behind its brace
    if (!in_block) {
      out.item = here;
      return out;
    }
    out.place = inside(*here, out.place, source);
    out.around.push_back(*here);
    parent = *block;
  }
}

} // namespace norma::server
