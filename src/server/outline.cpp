#include "server/outline.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "diag/diagnostic.hpp"
#include "model/statement.hpp"
#include "server/cursor.hpp"

namespace norma::server {
namespace {

using syntax::NodeKind;

class Reader {
 public:
  explicit Reader(const text::Source& source) : source_(source), statements_(source, ignored_) {}

  Outline read(const syntax::Tree& tree) {
    read_block(tree.root(), words::in_file, out_.symbols);
    return std::move(out_);
  }

  std::vector<Mention> names(const syntax::Tree& tree) {
    read_names(tree.root(), words::in_file);
    std::erase_if(out_.mentions, [](const Mention& one) { return !one.gives; });
    return std::move(out_.mentions);
  }

 private:
  void read_names(syntax::NodeView block, unsigned place) {
    for (const syntax::NodeView item : block.children()) {
      if (item.kind() != NodeKind::item) continue;
      const std::string_view text = source_.text(item.span());
      const auto starts = [&](std::string_view word) {
        return text.starts_with(word) && text.substr(word.size()).starts_with(' ');
      };
      if (starts("view") || starts("face") || starts("series")) {
        const auto statement = statements_.read(item, place, "");
        if (statement && !statement->broken) take_mentions(*statement, statement->word->name);
      } else if (starts("protocol") || starts("for")) {
        const auto inner = model::block_of(item);
        const unsigned within = inner ? inside(item, place, source_) : 0;
        if (within != 0) read_names(*inner, within);
      }
    }
  }

  void read_block(syntax::NodeView block, unsigned place, std::vector<Symbol>& into) {
    for (const syntax::NodeView item : block.children()) {
      if (item.kind() == NodeKind::item) read_item(item, place, into);
    }
  }

  void read_item(syntax::NodeView item, unsigned place, std::vector<Symbol>& into) {
    // What is wrong in it, findings say.
    const auto statement = statements_.read(item, place, "");
    if (!statement) return;
    const std::string_view word = statement->word->name;
    if (!statement->broken) take_mentions(*statement, word);
    const bool is_part = statement->word->block || word == "series" || word == "change series";
    std::vector<Symbol> inner;
    if (const auto block = model::block_of(item)) {
      const unsigned within = inside(item, place, source_);
      if (within != 0) read_block(*block, within, inner);
    }
    if (!is_part) return;
    Symbol symbol{std::string(word), "", "", item.span(), statement->head, std::move(inner)};
    if (!statement->broken) name(*statement, symbol);
    into.push_back(std::move(symbol));
  }

  void name(const model::Statement& statement, Symbol& symbol) const {
    for (const model::Part& part : statement.parts) {
      for (const words::Value& value : part.values) {
        if (const auto* name = value.as<words::Name>(); name != nullptr && symbol.name.empty()) {
          symbol.name = std::string(name->text);
          symbol.heading = statement.place(value);
        }
        if (const auto* title = value.as<words::Quoted>(); title != nullptr && symbol.title.empty())
          symbol.title = title->text();
      }
      break; // the first part names it
    }
    if (symbol.word == "for") {
      const text::Span behind{statement.span.file, statement.head.end, statement.span.end};
      symbol.name = std::string(source_.text(behind));
      symbol.name.erase(0, std::min(symbol.name.find_first_not_of(' '), symbol.name.size()));
    }
  }

  void take_mentions(const model::Statement& statement, std::string_view word) {
    const bool is_view = word == "view" || word == "face view";
    const bool is_series = word == "series" || word == "change series";
    if (word == "builds on") out_.builds_on = statement.span;
    bool series_next = false;
    bool kit_next = false;
    std::size_t index = 0;
    for (const model::Part& part : statement.parts) {
      for (const words::Value& value : part.values) {
        const std::size_t at = index++;
        if (value.symbol() == "series") series_next = true;
        if (std::exchange(kit_next, word == "accept" && value.symbol() == "with")) continue;
        const auto* name = value.as<words::Name>();
        if (name == nullptr) continue;
        const text::Span span = statement.place(value);
        if (word == "protocol") out_.protocol = span;
        if (word == "protocol" || word == "builds on") continue;
        if (word == "accept" && at == 0) continue; // a finding
        const bool of_series = (is_series && at == 0) || (word == "accept" && series_next);
        const bool gives = at == 0 && (is_view || word == "series");
        out_.mentions.push_back(
            {of_series ? Named::series : Named::view, std::string(name->text), span, gives});
      }
    }
  }

  const text::Source& source_;
  diag::Findings ignored_;
  model::StatementReader statements_;
  Outline out_;
};

} // namespace

Outline outline_of(const syntax::Tree& tree, const text::Source& source) {
  return Reader(source).read(tree);
}

std::vector<Mention> names_given(const syntax::Tree& tree, const text::Source& source) {
  return Reader(source).names(tree);
}

} // namespace norma::server
