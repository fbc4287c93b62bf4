// Requests about one text: what stands in it, and what may.
#include <algorithm>

#include "server/completion.hpp"
#include "server/hover.hpp"
#include "server/inlay.hpp"
#include "server/navigation.hpp"
#include "server/outline.hpp"
#include "server/requests.hpp"
#include "server/shape.hpp"
#include "syntax/parser.hpp"

namespace norma::server {

Asked asked_about(State& state, const In& params) {
  Asked out;
  out.document = document_of(state, params);
  if (out.document == nullptr || out.document->language() != Language::protocol) return out;
  const auto answer = state.snapshot().parsed(out.document->path);
  if (const auto* parsed = std::get_if<std::shared_ptr<const workspace::Parsed>>(&answer))
    out.parsed = *parsed;
  return out;
}

std::optional<std::size_t> offset_in(const State& state, const Asked& asked, const In& params) {
  const auto position = position_in(member(&params, "position"));
  if (!position) return std::nullopt;
  return asked.document->text->lines.offset(*position, state.encoding());
}

Out range_of(const State& state, const Asked& asked, text::Span span) {
  const Lines& lines = asked.document->text->lines;
  return json_of(
      Range{lines.at(span.begin, state.encoding()), lines.at(span.end, state.encoding())});
}

namespace {

Out markdown(const std::string& text) { return {{"kind", "markdown"}, {"value", text}}; }

/// The kit to measure by, where there is one.
const kit::Kit* first_kit(const workspace::Ask& ask) {
  return ask.kits.empty() || !ask.kits.front()->kit->readable ? nullptr
                                                              : ask.kits.front()->kit.get();
}

int kind_of(Completion::Kind kind) {
  // CompletionItemKind.
  switch (kind) {
  case Completion::Kind::word: return 14;    // Keyword
  case Completion::Kind::choice: return 20;  // EnumMember
  case Completion::Kind::name: return 6;     // Variable
  case Completion::Kind::finding: return 21; // Constant
  case Completion::Kind::code: return 12;    // Value
  }
  return 1;
}

int kind_of(const Symbol& symbol) {
  // SymbolKind.
  if (symbol.word == "protocol") return 4;                                  // Package
  if (symbol.word == "series" || symbol.word == "change series") return 18; // Array
  if (symbol.word == "for") return 19;                                      // Object
  if (symbol.word.starts_with("every")) return 3;                           // Namespace
  return 5;                                                                 // Class
}

Out symbols_json(const std::vector<Symbol>& symbols, const State& state, const Asked& asked) {
  Out out = Out::array();
  for (const Symbol& symbol : symbols) {
    Out one = {{"name", symbol.name.empty()    ? symbol.word
                        : symbol.word == "for" ? "for " + symbol.name
                                               : symbol.name}};
    const std::string detail = symbol.title.empty() ? symbol.word : symbol.title;
    if (!symbol.name.empty()) one["detail"] = detail;
    one["kind"] = kind_of(symbol);
    one["range"] = range_of(state, asked, symbol.whole);
    one["selectionRange"] = range_of(state, asked, symbol.heading);
    if (!symbol.inner.empty()) one["children"] = symbols_json(symbol.inner, state, asked);
    out.push_back(std::move(one));
  }
  return out;
}

/// Places of a text in another that differs from it in one stretch.
class Moved {
 public:
  Moved(std::string_view before, std::string_view after) {
    const std::size_t least = std::min(before.size(), after.size());
    while (front_ < least && before[front_] == after[front_])
      ++front_;
    std::size_t back = 0;
    while (back < least - front_ &&
           before[before.size() - 1 - back] == after[after.size() - 1 - back])
      ++back;
    before_end_ = before.size() - back;
    after_end_ = after.size() - back;
  }
  [[nodiscard]] text::Span operator()(text::Span span) const {
    return {span.file, place(span.begin), place(span.end)};
  }

 private:
  [[nodiscard]] std::uint32_t place(std::uint32_t at) const {
    if (at <= front_) return at;
    if (at >= before_end_) return static_cast<std::uint32_t>(at - before_end_ + after_end_);
    return static_cast<std::uint32_t>(front_);
  }
  std::size_t front_ = 0;
  std::size_t before_end_ = 0;
  std::size_t after_end_ = 0;
};

/// Those of which nothing is left go.
std::vector<Symbol> moved(const std::vector<Symbol>& symbols, const Moved& by) {
  std::vector<Symbol> out;
  for (Symbol symbol : symbols) {
    symbol.whole = by(symbol.whole);
    symbol.heading = by(symbol.heading);
    symbol.inner = moved(symbol.inner, by);
    if (symbol.whole.begin < symbol.whole.end) out.push_back(std::move(symbol));
  }
  return out;
}

std::size_t count(const std::vector<Symbol>& symbols) {
  std::size_t out = symbols.size();
  for (const Symbol& symbol : symbols)
    out += count(symbol.inner);
  return out;
}

} // namespace

Reply hover(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  const auto offset = offset_in(state, asked, params);
  if (!offset) return bad_parameters("textDocument/hover");
  const workspace::Ask ask = state.ask_of(*asked.document);
  const auto found =
      hover_at(asked.parsed->tree, asked.source(), *offset, first_kit(ask), state.language());
  if (!found) return Out(nullptr);
  return Out{{"contents", markdown(found->markdown)},
             {"range", range_of(state, asked, found->span)}};
}

Reply completion(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  const auto offset = offset_in(state, asked, params);
  if (!offset) return bad_parameters("textDocument/completion");
  const std::string& path = asked.document->path;
  const auto known = [&] {
    return names_given_in(state.snapshot(), path, state.files().root_of(path));
  };
  const Completions found = completions_at(asked.parsed->tree, asked.source(), *offset, known);
  const text::Span typed{text::FileId::none, static_cast<std::uint32_t>(found.begin),
                         static_cast<std::uint32_t>(*offset)};
  const Out range = range_of(state, asked, typed);
  Out items = Out::array();
  for (const Completion& one : found.list) {
    Out item = {{"label", one.label}, {"kind", kind_of(one.kind)}};
    if (!one.detail.empty()) item["detail"] = one.detail;
    item["documentation"] = markdown(one.markdown);
    item["filterText"] = one.insert;
    item["textEdit"] = {{"range", range}, {"newText", one.insert}};
    items.push_back(std::move(item));
  }
  return Out{{"isIncomplete", false}, {"items", std::move(items)}};
}

Reply document_symbols(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  std::vector<Symbol> now = outline_of(asked.parsed->tree, asked.source()).symbols;
  if (asked.parsed->findings.empty()) {
    state.keep_good(*asked.document);
  } else if (const auto good = state.good_text(*asked.document)) {
    // A text that is half typed may have lost some: those of the last one that could be read stay.
    const text::Source source("", good->bytes);
    diag::Findings ignored;
    const auto before =
        outline_of(syntax::parse(text::FileId::none, source.bytes(), ignored), source).symbols;
    if (count(now) < count(before))
      now = moved(before, Moved(good->bytes, asked.document->text->bytes));
  }
  return symbols_json(now, state, asked);
}

Reply folding(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  Out out = Out::array();
  const Lines& lines = asked.document->text->lines;
  for (const Fold& fold : folds_of(asked.parsed->tree, asked.source())) {
    const std::uint32_t first = lines.at(fold.span.begin, state.encoding()).line;
    std::uint32_t last = lines.at(fold.span.end, state.encoding()).line;
    // The line of the closing brace stays to be seen.
    if (!fold.comment && last > first) --last;
    if (last <= first) continue;
    Out one = {{"startLine", first}, {"endLine", last}};
    if (fold.comment) one["kind"] = "comment";
    out.push_back(std::move(one));
  }
  return out;
}

Reply selection(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  const In* positions = member(&params, "positions");
  constexpr std::size_t most = 1000; // cursors
  if (positions == nullptr || !positions->is_array() || positions->size() > most)
    return bad_parameters("textDocument/selectionRange");
  Out out = Out::array();
  for (const In& one : *positions) {
    const auto position = position_in(&one);
    if (!position) return bad_parameters("textDocument/selectionRange");
    const std::size_t offset = asked.document->text->lines.offset(*position, state.encoding());
    const auto spans = around(asked.parsed->tree, asked.source(), offset);
    Out range; // from the outside
    for (auto span = spans.rbegin(); span != spans.rend(); ++span) {
      Out inner = {{"range", range_of(state, asked, *span)}};
      if (!range.is_null()) inner["parent"] = std::move(range);
      range = std::move(inner);
    }
    out.push_back(std::move(range));
  }
  return out;
}

Reply semantic_tokens(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  Out data = Out::array();
  Position last;
  for (const Shade& shade : shades_of(asked.parsed->tree, asked.source())) {
    const Position begin = asked.document->text->lines.at(shade.span.begin, state.encoding());
    const Position end = asked.document->text->lines.at(shade.span.end, state.encoding());
    if (begin.line != end.line || begin >= end) continue;
    const bool same_line = begin.line == last.line;
    data.push_back(begin.line - last.line);
    data.push_back(same_line ? begin.character - last.character : begin.character);
    data.push_back(end.character - begin.character);
    data.push_back(static_cast<int>(shade.type));
    data.push_back(shade.gives ? 1 : 0);
    last = begin;
  }
  return Out{{"data", std::move(data)}};
}

Reply inlay_hints(State& state, const In& params, const workspace::Cancel& cancel) {
  const Asked asked = asked_about(state, params);
  if (asked.document == nullptr) return not_open(params);
  const auto range = range_in(member(&params, "range"));
  if (!range) return bad_parameters("textDocument/inlayHint");
  const workspace::Ask ask = state.ask_of(*asked.document);
  Out out = Out::array();
  if (asked.parsed == nullptr || ask.kits.empty()) return out;
  const auto answer = state.snapshot().check(asked.document->path, ask, cancel);
  const auto* checked = std::get_if<std::shared_ptr<const workspace::Checked>>(&answer);
  if (checked == nullptr) return out;
  for (const Hint& hint : hints_of(**checked, asked.parsed->version->id, state.language())) {
    const Position at = asked.document->text->lines.at(hint.span.end, state.encoding());
    if (at < range->start || at > range->end) continue;
    out.push_back({{"position", json_of(at)}, {"label", hint.text}, {"paddingLeft", true}});
  }
  return out;
}

} // namespace norma::server
