#include "server/shape.hpp"

#include <algorithm>
#include <map>

#include "model/statement.hpp"
#include "server/cursor.hpp"
#include "server/outline.hpp"

namespace norma::server {
namespace {

using syntax::NodeKind;

class Shader {
 public:
  Shader(const syntax::Tree& tree, const text::Source& source) : source_(source) {
    const Outline outline = outline_of(tree, source);
    for (const Mention& one : outline.mentions)
      names_.emplace(one.span.begin, one.gives);
    if (outline.protocol.known()) names_.emplace(outline.protocol.begin, true);
    block(tree.root(), words::in_file);
    for (const syntax::Node& node : tree.nodes()) {
      if (node.kind == NodeKind::comment)
        out_.push_back({{tree.file(), node.begin, node.end}, TokenType::comment, false});
    }
    std::sort(out_.begin(), out_.end(),
              [](const Shade& a, const Shade& b) { return a.span.begin < b.span.begin; });
  }
  std::vector<Shade> take() { return std::move(out_); }

 private:
  void block(syntax::NodeView parent, unsigned place) {
    for (const syntax::NodeView child : parent.children()) {
      if (child.kind() == NodeKind::item) item(child, place);
    }
  }

  void item(syntax::NodeView item, unsigned place) {
    const auto tokens = tokens_of(item, source_);
    const Head head = head_of(tokens, place);
    for (std::size_t i = 0; i < tokens.size(); ++i) {
      const words::Token& token = tokens[i];
      const auto name = names_.find(token.span.begin);
      if (name != names_.end())
        out_.push_back({token.span, TokenType::variable, name->second});
      else if (head.word != nullptr && i < head.used)
        out_.push_back({token.span, TokenType::keyword, false});
      else if (head.word != nullptr || token.kind != words::TokenKind::word)
        value(token);
    }
    if (const auto inner = model::block_of(item)) {
      const unsigned within = inside(item, place, source_);
      if (within != 0) block(*inner, within);
    }
  }

  void value(const words::Token& token) {
    using words::TokenKind;
    switch (token.kind) {
    case TokenKind::word: out_.push_back({token.span, TokenType::enum_member, false}); break;
    case TokenKind::text: out_.push_back({token.span, TokenType::string, false}); break;
    case TokenKind::number:
    case TokenKind::ratio:
    case TokenKind::f_number:
    case TokenKind::date: out_.push_back({token.span, TokenType::number, false}); break;
    case TokenKind::equals:
    case TokenKind::plus_minus: out_.push_back({token.span, TokenType::op, false}); break;
    case TokenKind::comma: break;
    }
  }

  const text::Source& source_;
  std::map<std::uint32_t, bool> names_; // where they begin; are they given there?
  std::vector<Shade> out_;
};

/// Nothing but one line end and blanks lies between.
bool is_next_line(std::string_view between) {
  return std::count(between.begin(), between.end(), '\n') == 1 &&
         between.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

} // namespace

std::vector<Fold> folds_of(const syntax::Tree& tree, const text::Source& source) {
  std::vector<Fold> out;
  const auto& nodes = tree.nodes();
  Fold comments;
  const auto put_comments = [&] {
    if (comments.span.known()) out.push_back(comments);
    comments = {};
  };
  for (const syntax::Node& node : nodes) {
    const text::Span span{tree.file(), node.begin, node.end};
    if (node.kind == NodeKind::block) out.push_back({span, false});
    if (node.kind != NodeKind::comment) continue;
    const bool goes_on =
        comments.span.known() && node.begin >= comments.span.end &&
        is_next_line(source.bytes().substr(comments.span.end, node.begin - comments.span.end));
    if (goes_on) {
      comments.span.end = node.end;
    } else {
      put_comments();
      comments = {span, true};
    }
  }
  put_comments();
  std::sort(out.begin(), out.end(),
            [](const Fold& a, const Fold& b) { return a.span.begin < b.span.begin; });
  return out;
}

std::vector<text::Span> around(const syntax::Tree& tree, const text::Source& source,
                               std::size_t offset) {
  std::vector<text::Span> out; // from the outside
  const auto put = [&](text::Span span) {
    if (out.empty() || out.back() != span) out.push_back(span);
  };
  put({tree.file(), 0, static_cast<std::uint32_t>(source.bytes().size())});
  const Spot spot = spot_at(tree, source, offset);
  for (const syntax::NodeView item : spot.around) {
    put(item.span());
    if (const auto block = model::block_of(item)) put(block->span());
  }
  if (spot.item && offset <= spot.item->span().end) {
    put(spot.item->span());
    const auto tokens = tokens_of(*spot.item, source);
    if (!tokens.empty()) {
      const text::Span said = text::join(tokens.front().span, tokens.back().span);
      if (said.begin <= offset && offset <= said.end) {
        put(said);
        // The part between two commas, then the word.
        auto first = tokens.begin();
        for (auto it = tokens.begin(); it != tokens.end(); ++it) {
          if (it->kind == words::TokenKind::comma && it->span.end <= offset) first = it + 1;
        }
        auto last = first;
        while (last != tokens.end() && last->kind != words::TokenKind::comma)
          ++last;
        if (first != last) {
          const text::Span part = text::join(first->span, (last - 1)->span);
          if (part.begin <= offset && offset <= part.end) put(part);
          for (auto it = first; it != last; ++it) {
            if (it->span.begin <= offset && offset <= it->span.end) {
              put(it->span);
              break;
            }
          }
        }
      }
    }
  }
  std::reverse(out.begin(), out.end());
  return out;
}

std::vector<std::string_view> token_types() {
  return {"keyword", "enumMember", "variable", "string", "number", "comment", "operator"};
}

std::vector<Shade> shades_of(const syntax::Tree& tree, const text::Source& source) {
  return Shader(tree, source).take();
}

} // namespace norma::server
