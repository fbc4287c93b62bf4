#include "workspace/front.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <iterator>

#include "diag/catalogue.hpp"
#include "diag/terms.hpp"
#include "model/extend.hpp"
#include "model/fingerprint.hpp"
#include "model/resolve.hpp"
#include "model/write.hpp"
#include "syntax/parser.hpp"

namespace norma::workspace {
namespace {

namespace catalogue = diag::catalogue;

/// Protocols may build on each other this deep.
constexpr std::size_t deepest_base = 32;
/// A protocol and all that it builds on may hold this many statements, what each takes over
/// counted.
constexpr std::size_t most_declared = 2000000;

std::string key_of(const Version& version) {
  return Key().number(static_cast<std::uint64_t>(version.id)).bytes();
}

// What is kept is measured roughly: by what there is most of.
constexpr std::size_t least_cost = 1000;
std::size_t cost_of(const Parsed& p) {
  return least_cost + p.tree.nodes().size() * sizeof(syntax::Node) +
         p.version->source->bytes().size();
}
std::size_t cost_of(const model::Declared* d) {
  constexpr std::size_t parts = 100; // of a statement, where no other has the same
  return least_cost + (d == nullptr ? 0
                                    : d->size() * (sizeof(model::Statement) + parts) +
                                          d->views.size() * sizeof(model::DeclaredView));
}
std::size_t cost_of(const Resolved& r) {
  constexpr std::size_t values = 3000; // that a view says
  std::size_t cost = least_cost;
  for (const auto& protocol : r.protocols) {
    cost += protocol->views.size() * (sizeof(model::View) + values);
    for (const std::string& content : protocol->contents)
      cost += content.size();
  }
  return cost;
}

/// All that the protocol of each link rests on, from the last link up.
std::vector<std::string> keys_of(const Chain& chain) {
  std::vector<std::string> keys(chain.links.size());
  const End& end = chain.end;
  Key last;
  last.number(static_cast<std::uint64_t>(end.kind));
  last.number(static_cast<std::uint64_t>(end.error.kind));
  std::string below = (last << end.path << end.error.why).bytes();
  for (std::size_t i = chain.links.size(); i-- > 0;) {
    const Chain::Link& link = chain.links[i];
    Key key;
    key.number(static_cast<std::uint64_t>(link.version->id));
    keys[i] = (key << below).bytes();
    // Whoever builds on it may tell the name by which it was reached.
    const bool plain = link.at.path == link.version->source->name();
    below = plain ? keys[i] : (Key() << keys[i] << link.at.path).bytes();
  }
  return keys;
}

bool is_looked_at(const std::optional<model::Group>& group,
                  const std::vector<std::string>& patients) {
  if (!group || patients.empty()) return true;
  const std::string name = model::to_text(*group);
  return std::any_of(patients.begin(), patients.end(), [&](const std::string& one) {
    return one == name || (group->children && one == model::to_text(model::Group{true, {}}));
  });
}

std::string key_of(const Chain& chain, const Ask& ask) {
  Key key;
  (key << chain.keys.front() << ask.group).number(ask.fingerprints ? 1 : 0);
  for (const std::string& group : ask.patients)
    key << group;
  return key.bytes();
}

} // namespace

std::shared_ptr<const Parsed> Front::parsed(const VersionPtr& version) {
  const std::string key = key_of(*version);
  if (auto known = store_.parsed.find(key)) return known;
  auto made = std::make_shared<Parsed>();
  made->version = version;
  made->tree = syntax::parse(version->id, version->source->bytes(), made->findings);
  ++store_.worked.parsed;
  const std::size_t cost = cost_of(*made);
  return store_.parsed.put(key, std::move(made), cost);
}

Front::Own Front::own(const VersionPtr& version) {
  const std::string key = key_of(*version);
  if (auto known = store_.declared.find(key)) return {known, nullptr};
  const auto known = fresh_.find(version->id);
  if (known != fresh_.end()) return known->second;
  auto made = std::make_shared<DeclaredFile>();
  made->version = version;
  Own out{made, nullptr};
  {
    const auto tree = parsed(version); // it need not lie beside what is made of it
    made->findings = tree->findings;
    auto protocol =
        model::declare(tree->tree, *version->source, tree->findings.empty(), made->findings);
    ++store_.worked.declared;
    if (protocol) out.mine = std::make_shared<model::Declared>(std::move(*protocol));
    made->protocol = out.mine;
  }
  if (!store_.declared.keeps_nothing()) {
    if (out.mine) out.mine->share();
    out.mine = nullptr;
    out.file = store_.declared.put(
        key, std::move(made), cost_of(out.file->protocol.get()) + version->source->bytes().size());
  }
  return fresh_[version->id] = out;
}

/// The same, where it is not asked for once more.
Front::Own Front::take(const VersionPtr& version) {
  Own out = own(version);
  fresh_.erase(version->id);
  return out;
}

Import Front::import(const Chain::Link& link, const std::string& root) {
  if (const auto known = state_.import_of(link.at.id, root)) return *known;
  Import out;
  const model::Declared* declared = own(link.version).file->protocol.get();
  out.builds = declared != nullptr && declared->base;
  if (out.builds)
    out.to = state_.files().locate(link.version->source->name(), declared->base->path, root);
  state_.keep(link.at.id, root, out);
  return out;
}

Answer<std::shared_ptr<const Chain>> Front::chain(const std::string& path, std::string root) {
  State::Place place = state_.place_of(path);
  if (root.empty()) root = std::move(place.root);
  text::Located at{std::move(place.id), path};
  if (auto known = state_.chain_of(at.id, root)) return known;
  auto chain = std::make_shared<Chain>();
  std::vector<std::string> needed;
  while (true) {
    if (cancel_.cancelled()) return Cancelled{};
    needed.push_back(at.id);
    const Text text = state_.text(at, store_);
    if (const auto* error = std::get_if<text::ReadError>(&text)) {
      if (chain->links.empty()) return NoFile{path, *error};
      chain->end = {End::Kind::unreadable, {}, *error};
      break;
    }
    chain->links.push_back({at, std::get<VersionPtr>(text)});
    const Import import = this->import(chain->links.back(), root);
    if (!import.builds) break;
    if (chain->links.size() > deepest_base) {
      chain->end.kind = End::Kind::deep;
      break;
    }
    if (const auto* error = std::get_if<text::ReadError>(&import.to)) {
      chain->end = {End::Kind::unreadable, {}, *error};
      break;
    }
    at = std::get<text::Located>(import.to);
    const bool again = std::any_of(chain->links.begin(), chain->links.end(),
                                   [&](const Chain::Link& l) { return l.at.id == at.id; });
    if (again) {
      chain->end = {End::Kind::circle, at.path, {}};
      break;
    }
  }
  chain->keys = keys_of(*chain);
  // In a batch nobody asks twice, and nobody edits.
  if (!store_.limits().bases_only) state_.keep(root, chain, std::move(needed));
  return chain;
}

Front::Made Front::built(const Chain& chain) {
  std::shared_ptr<const Built> base;
  std::size_t next = 0;
  for (; next < chain.links.size() && base == nullptr; ++next)
    base = store_.built.find(chain.keys[next]);
  if (base != nullptr) --next; // the link that is there
  Made made{base, nullptr};
  while (next-- > 0) {
    if (cancel_.cancelled()) return {};
    made = build(chain, next, made.built);
  }
  return made;
}

Front::Made Front::build(const Chain& chain, std::size_t index,
                         const std::shared_ptr<const Built>& base) {
  const Chain::Link& link = chain.links[index];
  Own own = take(link.version);
  const bool kept = index > 0 || !store_.limits().bases_only;
  Made made{nullptr, own.mine};
  auto findings = std::make_shared<diag::Findings>(own.file->findings);
  auto built = std::make_shared<Built>();
  built->protocol = own.file->protocol;
  if (built->protocol != nullptr && built->protocol->base) {
    if (made.mine == nullptr) made.mine = std::make_shared<model::Declared>(*built->protocol);
    lay(*made.mine, chain, index, base.get(), *findings);
    built->protocol = made.mine;
  }
  built->statements = base == nullptr ? 0 : base->statements;
  if (built->protocol != nullptr) built->statements += built->protocol->size();
  if (built->statements > most_declared && built->protocol != nullptr) {
    findings->add(diag::make(
        catalogue::protocol_too_large, built->protocol->heading,
        fmt::format("with all that it builds on it has more than {} statements", most_declared)));
    built->protocol = made.mine = nullptr;
  }
  built->files.push_back({link.at.id, link.version, std::move(findings),
                          state_.place_of(link.at.path).in_project(),
                          own.file->protocol == nullptr ? "" : own.file->protocol->name});
  if (base != nullptr)
    built->files.insert(built->files.end(), base->files.begin(), base->files.end());
  ++store_.worked.built;
  if (!kept) {
    made.built = std::move(built);
    return made;
  }
  if (made.mine) made.mine->share();
  const std::size_t cost = cost_of(built->protocol.get());
  return {store_.built.put(chain.keys[index], std::move(built), cost), nullptr};
}

/// Lays `own` on what it builds on, or says why not.
void Front::lay(model::Declared& own, const Chain& chain, std::size_t index, const Built* base,
                diag::Findings& findings) const {
  const model::Base named = *own.base;
  own.sound = false; // until the base is there, nothing is said of what is missing
  if (index + 1 == chain.links.size()) {
    const End& end = chain.end;
    const text::ReadError& error = end.error;
    if (end.kind == End::Kind::deep) {
      findings.add(
          diag::make(catalogue::built_too_deep, named.span, static_cast<int>(deepest_base)));
    } else if (end.kind == End::Kind::circle) {
      findings.add(diag::make(
          catalogue::goes_in_circles, named.span,
          diag::term::builds_on_itself(chain.links[index].version->source->name(), end.path)));
    } else if (error.kind == text::ReadError::Kind::outside) {
      findings.add(diag::make(catalogue::base_outside, named.path_span, named.path))
          .with_note(
              "bases are read from the nearest folder above that holds .git, else norma.yaml, or "
              "from the folder of the file, or from --root")
          .with_help("write the way to the file from this one: from \"../five.norma\"")
          .with_help("where no folder above both files holds .git, name one: `--root FOLDER`");
    } else {
      findings.add(diag::make(catalogue::base_unreadable, named.path_span, named.path, error.why));
    }
    return;
  }
  if (base->protocol == nullptr) return; // reported there
  if (base->protocol->name != named.name) {
    findings
        .add(diag::make(catalogue::base_name_differs, named.span, chain.links[index + 1].at.path,
                        base->protocol->name, named.name))
        .with_help(
            fmt::format("write `builds on {} from \"{}\"`", base->protocol->name, named.path));
    return;
  }
  if (!named.as_of.empty()) {
    const std::string now = model::fingerprint_of_all(*base->protocol);
    if (!now.starts_with(named.as_of))
      findings
          .add(diag::make(catalogue::base_moved, named.as_of_span, named.name,
                          now.substr(0, model::short_fingerprint), named.as_of))
          .with_help(
              "`norma compare` says what that changes here, `norma follow FILE` takes it over")
          .with_fix(named.as_of_span, model::quoted(now.substr(0, model::short_fingerprint)),
                    false);
  }
  own.sound = true;
  own = model::extended(*base->protocol, std::move(own), findings);
}

Shared<Built> Front::built(const std::string& path, const std::string& root) {
  const auto found = chain(path, root);
  if (auto end = no_answer<Shared<Built>>(found)) return *end;
  Made made = built(*std::get<std::shared_ptr<const Chain>>(found));
  if (made.built == nullptr) return Cancelled{};
  return std::move(made.built);
}

Answer<std::string> Front::key(const std::string& path, const Ask& ask) {
  const auto found = chain(path, ask.root);
  if (auto end = no_answer<Answer<std::string>>(found)) return *end;
  return key_of(*std::get<std::shared_ptr<const Chain>>(found), ask);
}

Shared<Resolved> Front::resolved(const std::string& path, const Ask& ask) {
  const auto found = chain(path, ask.root);
  if (auto end = no_answer<Shared<Resolved>>(found)) return *end;
  const Chain& way = *std::get<std::shared_ptr<const Chain>>(found);
  const std::string key = key_of(way, ask);
  if (auto known = store_.resolved.find(key)) return known;
  const Made made = built(way);
  if (made.built == nullptr) return Cancelled{};
  auto out = std::make_shared<const Resolved>(resolve(made, ask));
  const std::size_t cost = cost_of(*out);
  return store_.resolved.put(key, std::move(out), cost);
}

/// The protocol for each group of patients that was asked for.
Resolved Front::resolve(const Made& made, const Ask& ask) {
  Resolved out;
  out.files = made.built->files;
  if (made.built->protocol == nullptr) return out;
  const model::Declared& declared = *made.built->protocol;
  const auto groups = model::groups_of(declared);
  std::vector<std::optional<model::Group>> wanted;
  for (const auto& group : groups) {
    const std::string name = group ? model::to_text(*group) : std::string();
    if (group) out.groups.push_back(name);
    if ((ask.group.empty() || (group && name == ask.group)) && is_looked_at(group, ask.patients))
      wanted.push_back(group);
  }
  for (const auto& group : wanted) {
    // Nothing is made of it after the last: it need not lie beside what is made of it.
    const bool last = made.mine != nullptr && !ask.fingerprints && &group == &wanted.back();
    auto protocol = std::make_shared<model::Protocol>(
        last ? model::resolve(std::move(*made.mine), group, out.findings)
             : model::resolve(declared, group, out.findings));
    ++store_.worked.resolved;
    if (ask.fingerprints) {
      model::Fingerprint f = model::fingerprint(declared, group);
      protocol->fingerprint_pictures = std::move(f.pictures);
      protocol->fingerprint_everything = std::move(f.everything);
    }
    if (groups.size() > 1 && group) protocol->group_label = model::to_text(*group);
    out.protocols.push_back(std::move(protocol));
  }
  out.no_group = out.protocols.empty();
  return out;
}

} // namespace norma::workspace
