#include "server/navigation.hpp"

#include <algorithm>
#include <set>

namespace norma::server {
namespace {

bool holds(text::Span span, std::size_t offset) {
  return span.known() && span.begin <= offset && offset <= span.end;
}

/// Where a name is given, by the nearest file; null where nowhere.
const Mention* giver(const std::vector<Outlined>& chain, const Mention& of, const Outlined** in) {
  for (const Outlined& file : chain) {
    for (const Mention& one : file.outline.mentions) {
      if (!one.gives || one.kind != of.kind || one.name != of.name) continue;
      if (in != nullptr) *in = &file;
      return &one;
    }
  }
  return nullptr;
}

std::optional<Outlined> outlined(const workspace::Snapshot& files, const std::string& path,
                                 const std::string& file) {
  const auto answer = files.parsed(path);
  const auto* parsed = std::get_if<std::shared_ptr<const workspace::Parsed>>(&answer);
  if (parsed == nullptr) return std::nullopt;
  const workspace::Parsed& p = **parsed;
  return Outlined{path, file, p.version, outline_of(p.tree, *p.version->source)};
}

} // namespace

std::vector<Outlined> chain_of(const workspace::Snapshot& files, const std::string& path,
                               const std::string& root) {
  std::vector<Outlined> out;
  const auto answer = files.built(path, root);
  const auto* built = std::get_if<std::shared_ptr<const workspace::Built>>(&answer);
  if (built == nullptr) return out;
  for (const workspace::File& file : (*built)->files) {
    if (auto one = outlined(files, file.version->source->name(), file.id))
      out.push_back(std::move(*one));
  }
  return out;
}

std::vector<Mention> names_given_in(const workspace::Snapshot& files, const std::string& path,
                                    const std::string& root) {
  std::vector<Mention> out;
  const auto answer = files.built(path, root);
  const auto* built = std::get_if<std::shared_ptr<const workspace::Built>>(&answer);
  if (built == nullptr) return out;
  for (const workspace::File& file : (*built)->files) {
    const auto parsed = files.parsed(file.version->source->name());
    const auto* read = std::get_if<std::shared_ptr<const workspace::Parsed>>(&parsed);
    if (read == nullptr) continue;
    const auto names = names_given((*read)->tree, *(*read)->version->source);
    out.insert(out.end(), names.begin(), names.end());
  }
  return out;
}

const Mention* mention_at(const Outlined& file, std::size_t offset) {
  for (const Mention& one : file.outline.mentions) {
    if (holds(one.span, offset)) return &one;
  }
  return nullptr;
}

std::optional<Found> definition_at(const std::vector<Outlined>& chain, std::size_t offset) {
  if (chain.empty()) return std::nullopt;
  if (holds(chain.front().outline.builds_on, offset) && chain.size() > 1)
    return Found{chain[1].path, chain[1].version, chain[1].outline.protocol, true};
  const Mention* mention = mention_at(chain.front(), offset);
  if (mention == nullptr) return std::nullopt;
  const Outlined* in = nullptr;
  const Mention* given = giver(chain, *mention, &in);
  if (given == nullptr) return std::nullopt;
  return Found{in->path, in->version, given->span, true};
}

std::vector<Found> references_at(const workspace::Snapshot& files,
                                 const std::vector<Outlined>& chain, std::size_t offset,
                                 const std::vector<std::string>& candidates,
                                 const std::string& root, const workspace::Cancel& cancel) {
  std::vector<Found> out;
  if (chain.empty()) return out;
  const Mention* mention = mention_at(chain.front(), offset);
  if (mention == nullptr) return out;
  const Outlined* home = nullptr;
  if (giver(chain, *mention, &home) == nullptr) return out;
  std::set<std::string> seen;
  const auto look = [&](const std::vector<Outlined>& its) {
    // What it speaks of is what is meant where the nearest that gives it is the same.
    if (its.empty() || !seen.insert(its.front().file).second) return;
    const Outlined* given_in = nullptr;
    if (giver(its, *mention, &given_in) == nullptr || given_in->file != home->file) return;
    for (const Mention& one : its.front().outline.mentions) {
      if (one.kind == mention->kind && one.name == mention->name)
        out.push_back({its.front().path, its.front().version, one.span, one.gives});
    }
  };
  look(chain);
  look(chain_of(files, home->path, root));
  for (const std::string& path : candidates) {
    if (cancel.cancelled()) return {};
    look(chain_of(files, path, root));
  }
  return out;
}

bool is_name(std::string_view text) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  return !text.empty() && letter(text.front()) &&
         std::all_of(text.begin(), text.end(),
                     [&](char c) { return letter(c) || (c >= '0' && c <= '9') || c == '_'; });
}

std::optional<std::string> taken_in(const workspace::Snapshot& files, Named kind,
                                    std::string_view name, const std::vector<Found>& where,
                                    const std::string& root) {
  std::set<std::string> seen;
  for (const Found& one : where) {
    if (!seen.insert(one.path).second) continue;
    const Mention wanted{kind, std::string(name), {}, false};
    if (giver(chain_of(files, one.path, root), wanted, nullptr) != nullptr) return one.path;
  }
  return std::nullopt;
}

} // namespace norma::server
