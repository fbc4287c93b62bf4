// Requests about names, through all protocols that build on each other.
#include "server/navigation.hpp"
#include "server/requests.hpp"

namespace norma::server {
namespace {

/// Files that are looked through for a name; a folder with more of them is not one to rename in.
constexpr std::size_t most_files = 5000;

Place place_of(const State& state, const Found& found) {
  const text::Source& source = *found.version->source;
  const bool open = state.documents().of_file(name_on_disk(found.path)) != nullptr;
  const Lines lines(source.bytes(), !open);
  return {
      found.path,
      {lines.at(found.span.begin, state.encoding()), lines.at(found.span.end, state.encoding())}};
}

Out location_of(const State& state, const Found& found) {
  const Place place = place_of(state, found);
  return {{"uri", state.uri_of_file(place.path)}, {"range", json_of(place.range)}};
}

std::string root_of(const State& state, const Asked& asked) {
  return state.files().root_of(asked.document->path);
}

std::vector<Outlined> chain_behind(const State& state, const Asked& asked) {
  return chain_of(state.snapshot(), asked.document->path, root_of(state, asked));
}

/// The protocols of the folder, and those that are open.
std::vector<std::string> candidates(const State& state, const Asked& asked) {
  std::vector<std::string> out;
  for (const auto& [file, document] : state.documents().all()) {
    if (document.language() == Language::protocol) out.push_back(document.path);
  }
  const std::string folder = state.files().folder_of(asked.document->path);
  if (folder.empty()) return out;
  auto below = text::files_below(folder, ".norma");
  if (auto* paths = std::get_if<std::vector<std::string>>(&below)) {
    if (paths->size() > most_files) paths->resize(most_files);
    out.insert(out.end(), paths->begin(), paths->end());
  }
  return out;
}

} // namespace

Reply definition(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  const auto offset = offset_in(state, asked, params);
  if (!offset) return bad_parameters("textDocument/definition");
  const auto found = definition_at(chain_behind(state, asked), *offset);
  return found ? location_of(state, *found) : Out(nullptr);
}

Reply references(State& state, const In& params, const workspace::Cancel& cancel) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  const auto offset = offset_in(state, asked, params);
  if (!offset) return bad_parameters("textDocument/references");
  const bool givers = is_true(member(&params, "context", "includeDeclaration"));
  Out out = Out::array();
  for (const Found& found :
       references_at(state.snapshot(), chain_behind(state, asked), *offset,
                     candidates(state, asked), root_of(state, asked), cancel)) {
    if (givers || !found.gives) out.push_back(location_of(state, found));
  }
  return out;
}

Reply prepare_rename(State& state, const In& params, const workspace::Cancel& /*cancel*/) {
  const Asked asked = asked_about(state, params);
  if (auto none = no_text(asked, params)) return *std::move(none);
  const auto offset = offset_in(state, asked, params);
  if (!offset) return bad_parameters("textDocument/prepareRename");
  const auto chain = chain_behind(state, asked);
  const Mention* mention = chain.empty() ? nullptr : mention_at(chain.front(), *offset);
  if (mention == nullptr || !definition_at(chain, *offset)) return Out(nullptr);
  return Out{{"range", range_of(state, asked, mention->span)}, {"placeholder", mention->name}};
}

Reply rename(State& state, const In& params, const workspace::Cancel& cancel) {
  const Asked asked = asked_about(state, params);
  if (asked.document == nullptr) return not_open(params);
  const auto name = text_in(member(&params, "newName"));
  if (asked.parsed == nullptr || !name) return bad_parameters("textDocument/rename");
  const auto offset = offset_in(state, asked, params);
  if (!offset) return bad_parameters("textDocument/rename");
  const auto chain = chain_behind(state, asked);
  const Mention* mention = chain.empty() ? nullptr : mention_at(chain.front(), *offset);
  if (mention == nullptr) return Refusal{Refusal::invalid_params, said::rename_none()};
  if (!is_name(*name)) return Refusal{Refusal::invalid_params, said::rename_no_name(*name)};
  const workspace::Snapshot files = state.snapshot();
  const auto found =
      references_at(files, chain, *offset, candidates(state, asked), root_of(state, asked), cancel);
  if (found.empty()) return Refusal{Refusal::invalid_params, said::rename_none()};
  if (const auto taken = taken_in(files, mention->kind, *name, found, root_of(state, asked)))
    return Refusal{Refusal::invalid_params, said::rename_taken(*taken, *name)};
  std::vector<Edit> edits;
  for (const Found& one : found) {
    const bool open = state.documents().of_file(name_on_disk(one.path)) != nullptr;
    if (!open && state.files().folder_of(one.path).empty())
      return Refusal{Refusal::invalid_params, said::rename_outside(one.path)};
    edits.push_back({place_of(state, one), *name, true, mention->name});
  }
  return state.workspace_edit(edits);
}

} // namespace norma::server
