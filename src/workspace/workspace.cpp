#include "workspace/workspace.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <set>
#include <utility>

#include "kit/read_kit.hpp"
#include "workspace/check.hpp"
#include "workspace/files.hpp"
#include "workspace/front.hpp"
#include "workspace/gather.hpp"

namespace norma::workspace {
namespace {

std::size_t cost_of(const Checked& c) {
  // Works are kept, and counted, for themselves.
  constexpr std::size_t least = 1000;
  constexpr std::size_t of_view = sizeof(plan::ViewPlan) + 500;
  constexpr std::size_t of_finding = sizeof(diag::Diagnostic) + 500;
  std::size_t cost = least + c.findings.all().size() * of_finding +
                     c.not_checked.size() * sizeof(report::NotChecked) +
                     c.exceptions.size() * sizeof(Tried);
  for (const report::Held& h : c.held)
    cost += h.plan.views.size() * of_view;
  return cost;
}

/// The kit under another name, which is kept, too.
std::shared_ptr<const KitRead> renamed(const KitRead& read, std::string name, Store& store) {
  const std::string key = (Key().number(read.number) << name).bytes();
  if (auto known = store.kits.find(key)) return known;
  auto made = std::make_shared<KitRead>(read);
  auto kit = std::make_shared<kit::Kit>(*read.kit);
  kit->name = {std::move(name), kit->name.span()};
  made->kit = std::move(kit);
  made->number = store.next_number();
  return store.kits.put(key, std::move(made), read.version->source->bytes().size() + 1);
}

/// From a path to its protocols held against the kits; nothing of the last step is kept.
Answer<Checked> checked_by(Front& front, const std::string& path, const Ask& ask, Store& store,
                           const Cancel& cancel) {
  auto found = front.resolved(path, ask);
  if (auto end = no_answer<Answer<Checked>>(found)) return *std::move(end);
  auto made =
      checked(std::get<std::shared_ptr<const Resolved>>(std::move(found)), ask, store, cancel);
  if (!made) return Cancelled{};
  return std::move(*made);
}

} // namespace

std::uint64_t Snapshot::revision() const { return state_->revision(); }

void Snapshot::call(const std::string& path) const { state_->call(path); }

Shared<Parsed> Snapshot::parsed(const std::string& path) const {
  const Cancel never;
  const Text text = state_->text({state_->place_of(path).id, path}, *store_);
  if (const auto* error = std::get_if<text::ReadError>(&text)) return NoFile{path, *error};
  return Front(*state_, *store_, never).parsed(std::get<std::shared_ptr<const Version>>(text));
}

Shared<Built> Snapshot::built(const std::string& path, const std::string& root,
                              const Cancel& cancel) const {
  return Front(*state_, *store_, cancel).built(path, root);
}

Answer<Kits> Snapshot::kits(const std::vector<std::string>& paths) const {
  Kits out;
  for (const std::string& path : paths) {
    const State::Place at = state_->place_of(path);
    const Text text = state_->text({at.id, path}, *store_);
    if (const auto* error = std::get_if<text::ReadError>(&text)) return NoFile{path, *error};
    auto version = std::get<std::shared_ptr<const Version>>(text);
    const auto before =
        static_cast<std::size_t>(std::count_if(out.begin(), out.end(), [&](const auto& other) {
          return other->version->source == version->source;
        }));
    const std::string key =
        (Key() << path).number(static_cast<std::uint64_t>(version->id)).number(before).bytes();
    auto read = store_->kits.find(key);
    if (read == nullptr) {
      if (before > 0) version = store_->twin(*version);
      auto made = std::make_shared<KitRead>();
      diag::Findings findings;
      made->path = path;
      made->id = at.id;
      made->version = version;
      made->kit = std::make_shared<const kit::Kit>(
          kit::read_kit(version->id, version->source->bytes(), findings));
      made->in_project = at.in_project();
      made->known_as = made->kit->name.value_or(made->in_project);
      made->findings = std::make_shared<const diag::Findings>(std::move(findings));
      made->number = store_->next_number();
      ++store_->worked.kits_read;
      read = store_->kits.put(key, std::move(made), version->source->bytes().size() + 1);
    }
    out.push_back(std::move(read));
  }
  if (out.size() < 2) return out;
  // With its file where it needs it: what is said of one is not meant for another.
  std::set<std::string> names;
  for (std::size_t i = 0; i < out.size(); ++i) {
    std::string name = out[i]->kit->name.value_or(paths[i]);
    if (names.count(name) == 1) name = fmt::format("{} ({})", name, paths[i]);
    if (names.count(name) == 1) name = fmt::format("{}, {}", name, i + 1);
    names.insert(name);
    const bool has_it = out[i]->kit->name.known() && out[i]->kit->name.get() == name;
    if (!has_it) out[i] = renamed(*out[i], std::move(name), *store_);
  }
  return out;
}

Answer<Checked> Snapshot::check_once(const std::string& path, const Ask& ask,
                                     const Cancel& cancel) const {
  Front front(*state_, *store_, cancel);
  return checked_by(front, path, ask, *store_, cancel);
}

Shared<Checked> Snapshot::check(const std::string& path, const Ask& ask,
                                const Cancel& cancel) const {
  Front front(*state_, *store_, cancel);
  auto way = front.key(path, ask);
  if (auto end = no_answer<Shared<Checked>>(way)) return *end;
  Key key;
  key << std::get<std::string>(way);
  key << words::to_text(ask.on);
  key.number(ask.scene ? 1 : 0).number(ask.plans ? 1 : 0);
  for (const auto& kit : ask.kits)
    key.number(kit->number);
  if (auto known = store_->checked.find(key.bytes())) return known;
  auto made = checked_by(front, path, ask, *store_, cancel);
  if (auto end = no_answer<Shared<Checked>>(made)) return *end;
  auto out = std::make_shared<const Checked>(std::get<Checked>(std::move(made)));
  const std::size_t cost = cost_of(*out);
  return store_->checked.put(key.bytes(), std::move(out), cost);
}

Answer<report::Report> Snapshot::report(const std::vector<std::string>& paths, const Ask& ask,
                                        const Cancel& cancel) const {
  std::vector<Checked> all;
  for (const std::string& path : paths) {
    auto one = check(path, ask, cancel);
    if (auto end = no_answer<Answer<report::Report>>(one)) return *std::move(end);
    all.push_back(*std::get<std::shared_ptr<const Checked>>(one));
  }
  return gather(paths, std::move(all), ask.kits, ask.on);
}

Workspace::Workspace(std::shared_ptr<const text::Files> files, std::shared_ptr<Store> store)
    : state_(std::make_shared<State>(std::move(files))), store_(std::move(store)) {}

Snapshot Workspace::snapshot() const {
  const std::lock_guard lock(mutex_);
  return {state_, store_};
}

/// A state that nobody else has: only then it may change. By who holds the lock.
State& Workspace::next() {
  if (state_.use_count() > 1) state_ = std::make_shared<State>(*state_);
  state_->next_revision();
  return *state_;
}

std::vector<std::string> Workspace::edit(const std::string& path, std::string text) {
  const std::lock_guard lock(mutex_);
  return next().replace(path, std::make_shared<const std::string>(std::move(text)));
}

std::vector<std::string> Workspace::close(const std::string& path) {
  const std::lock_guard lock(mutex_);
  return next().replace(path, nullptr);
}

std::vector<std::string> Workspace::changed(const std::string& path) {
  const std::lock_guard lock(mutex_);
  return next().forget(path);
}

void Workspace::refresh() {
  const std::lock_guard lock(mutex_);
  next().forget_disk();
}

} // namespace norma::workspace
