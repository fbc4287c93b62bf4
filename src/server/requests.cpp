// Requests: their parameters out of JSON, what they are answered into it. What they do stands in a
// file of its own for each.
#include <algorithm>
#include <iterator>

#include "server/code_action.hpp"
#include "server/formatting.hpp"
#include "server/requests.hpp"
#include "server/shape.hpp"

namespace norma::server {

Refusal bad_parameters(const std::string& method) {
  return {Refusal::invalid_params, said::bad_parameters(method)};
}

Refusal not_open(const In& params) {
  return {Refusal::invalid_params,
          said::not_open(text_in(member(&params, "textDocument", "uri")).value_or(""))};
}

std::optional<Reply> no_text(const Asked& asked, const In& params) {
  if (asked.document == nullptr) return not_open(params);
  if (asked.parsed == nullptr) return Out(nullptr);
  return std::nullopt;
}

Document* document_of(State& state, const In& params) {
  const auto uri = text_in(member(&params, "textDocument", "uri"));
  return uri ? state.document(*uri) : nullptr;
}

namespace {

constexpr const char* choose_kit = "norma.chooseKit";
constexpr const char* show_page = "norma.live";
constexpr const char* fix_all = "source.fixAll.norma";

bool wants(const In& params, std::string_view kind) {
  const In* only = member(&params, "context", "only");
  if (only == nullptr || !only->is_array()) return true;
  // A kind stands for all below it.
  return std::any_of(only->begin(), only->end(), [&](const In& one) {
    const auto asked_for = text_in(&one);
    return asked_for && (*asked_for == kind ||
                         (kind.starts_with(*asked_for) && kind.size() > asked_for->size() &&
                          kind[asked_for->size()] == '.') ||
                         asked_for->empty());
  });
}

Reply code_action(State& state, const In& params, const workspace::Cancel& cancel) {
  const Document* document = document_of(state, params);
  if (document == nullptr) return not_open(params);
  const auto range = range_in(member(&params, "range"));
  if (!range) return bad_parameters("textDocument/codeAction");
  const std::vector<Told>* found = state.found_in(*document, cancel);
  Out out = Out::array();
  if (found == nullptr) return out;
  if (wants(params, "quickfix")) {
    for (const Action& action : quick_fixes(*found, *range)) {
      Out one = {{"title", state.text(action.title)},
                 {"kind", "quickfix"},
                 {"diagnostics", Out::array({json_of(*action.mends, state)})}};
      if (action.preferred) one["isPreferred"] = true;
      one["edit"] = state.workspace_edit(action.edits);
      out.push_back(std::move(one));
    }
  }
  if (wants(params, fix_all)) {
    const std::vector<Edit> edits = safe_edits(*found, document->path);
    if (!edits.empty())
      out.push_back({{"title", state.text(said::fix_all())},
                     {"kind", fix_all},
                     {"edit", state.workspace_edit(edits)}});
  }
  return out;
}

Reply formatting(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Document* document = document_of(state, params);
  if (document == nullptr) return not_open(params);
  if (document->language() != Language::protocol) return Out(nullptr);
  const auto patch = tidied(*document, state.snapshot());
  if (!patch) return Out(nullptr);
  Out edits = Out::array();
  if (patch->begin != patch->end || !patch->text.empty()) {
    const Lines& lines = document->text->lines;
    const Range range{lines.at(patch->begin, state.encoding()),
                      lines.at(patch->end, state.encoding())};
    edits.push_back({{"range", json_of(range)}, {"newText", patch->text}});
  }
  return edits;
}

Reply execute(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const auto command = text_in(member(&params, "command"));
  if (command == show_page) return open_page(state, params);
  if (command != choose_kit) return bad_parameters("workspace/executeCommand");
  const In* arguments = member(&params, "arguments");
  if (arguments == nullptr || !arguments->is_array() || arguments->empty()) {
    state.ask_for_kit();
    return Out(nullptr);
  }
  // Paths one after the other, or a list of them.
  const bool list = arguments->size() == 1 && arguments->front().is_array();
  const In& paths = list ? arguments->front() : *arguments;
  if (std::any_of(paths.begin(), paths.end(), [](const In& one) { return !one.is_string(); }))
    return bad_parameters("workspace/executeCommand");
  state.set_kits(&paths);
  return Out(nullptr);
}

struct Row {
  const char* method;
  Handler handler;
};
constexpr Row rows[] = {
    {"textDocument/codeAction", code_action},
    {"textDocument/formatting", formatting},
    {"textDocument/hover", hover},
    {"textDocument/completion", completion},
    {"textDocument/documentSymbol", document_symbols},
    {"textDocument/foldingRange", folding},
    {"textDocument/selectionRange", selection},
    {"textDocument/semanticTokens/full", semantic_tokens},
    {"textDocument/inlayHint", inlay_hints},
    {"textDocument/definition", definition},
    {"textDocument/references", references},
    {"textDocument/prepareRename", prepare_rename},
    {"textDocument/rename", rename},
    {"workspace/executeCommand", execute},
    {"norma/page", page},
    {"norma/view", page_view},
};

} // namespace

Handler handler_of(const std::string& method) {
  const auto* found = std::find_if(std::begin(rows), std::end(rows),
                                   [&](const Row& row) { return method == row.method; });
  return found == std::end(rows) ? nullptr : found->handler;
}

Out capabilities(Encoding encoding, bool can_show_page) {
  Out types = Out::array();
  for (const std::string_view type : token_types())
    types.push_back(type);
  Out commands = Out::array({choose_kit});
  if (can_show_page) commands.push_back(show_page);
  return {
      {"positionEncoding", encoding == Encoding::utf8 ? "utf-8" : "utf-16"},
      {"textDocumentSync", {{"openClose", true}, {"change", 2}}},
      {"codeActionProvider", {{"codeActionKinds", Out::array({"quickfix", fix_all})}}},
      {"documentFormattingProvider", true},
      {"hoverProvider", true},
      {"completionProvider", {{"triggerCharacters", Out::array({" ", ","})}}},
      {"documentSymbolProvider", true},
      {"foldingRangeProvider", true},
      {"selectionRangeProvider", true},
      {"semanticTokensProvider",
       {{"legend",
         {{"tokenTypes", std::move(types)}, {"tokenModifiers", Out::array({"declaration"})}}},
        {"full", true}}},
      {"inlayHintProvider", true},
      {"definitionProvider", true},
      {"referencesProvider", true},
      {"renameProvider", {{"prepareProvider", true}}},
      {"executeCommandProvider", {{"commands", std::move(commands)}}},
      {"workspace", {{"workspaceFolders", {{"supported", true}, {"changeNotifications", true}}}}},
  };
}

Out json_of(const Told& told, const State& state) {
  Out out = {{"range", json_of(told.range)},
             {"severity", static_cast<int>(told.grave)},
             {"code", told.code},
             {"source", "norma"},
             {"message", told.message}};
  const auto location = [&](const Place& place) {
    return Out{{"uri", state.uri_of_file(place.path)}, {"range", json_of(place.range)}};
  };
  if (!told.related.empty()) {
    Out related = Out::array();
    for (const Related& one : told.related)
      related.push_back({{"location", location(one.place)}, {"message", one.text}});
    out["relatedInformation"] = std::move(related);
  }
  if (!told.edits.empty()) {
    Out fixes = Out::array();
    for (const Edit& edit : told.edits)
      fixes.push_back(
          {{"location", location(edit.place)}, {"replacement", edit.text}, {"safe", edit.safe}});
    out["data"] = {{"fixes", std::move(fixes)}};
  }
  return out;
}

} // namespace norma::server
