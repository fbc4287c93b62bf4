#include "workspace/files.hpp"

#include <algorithm>

namespace norma::workspace {
namespace {

template <class T>
const T* of_root(const std::vector<std::pair<std::string, T>>& all, const std::string& root) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.first == root; });
  return found == all.end() ? nullptr : &found->second;
}

} // namespace

State::State(const State& other) : files_(other.files_) {
  const std::lock_guard lock(other.mutex_);
  known_ = other.known_;
}

std::string State::Place::in_project() const {
  const std::string folder = root.empty() || root.ends_with('/') ? root : root + "/";
  return id.starts_with(folder) ? id.substr(folder.size()) : id.substr(id.rfind('/') + 1);
}

/// Files of a folder lie where the first of them does, but for links: a look at the disk is saved.
State::Place State::place_of(const std::string& path) {
  const std::size_t behind = files_->name_begins(path);
  {
    const std::lock_guard lock(mutex_);
    const auto known = known_.places.find(path);
    if (known != known_.places.end()) return known->second;
  }
  const std::string folder = path.substr(0, behind);
  const std::string name = path.substr(behind);
  const bool plain = !name.empty() && name != "." && name != ".." && !files_->is_link(path);
  Place out;
  if (plain) {
    const std::lock_guard lock(mutex_);
    const auto known = known_.folders.find(folder);
    if (known != known_.folders.end()) out = {known->second.id + name, known->second.root};
  }
  if (out.id.empty()) {
    out = {path, files_->root_of(path)};
    const text::LocateResult located = files_->locate(path, name, out.root);
    if (const auto* there = std::get_if<text::Located>(&located)) out.id = there->id;
    const std::lock_guard lock(mutex_);
    if (plain && out.id.ends_with(name))
      known_.folders[folder] = {out.id.substr(0, out.id.size() - name.size()), out.root};
  }
  const std::lock_guard lock(mutex_);
  return known_.places.emplace(path, std::move(out)).first->second;
}

void State::call(const std::string& path) {
  const Place at = place_of(path);
  const std::lock_guard lock(mutex_);
  known_.names.emplace(at.id, path);
}

Text State::text(const text::Located& at, Store& store) {
  std::string name;
  std::shared_ptr<const std::string> overlay;
  {
    const std::lock_guard lock(mutex_);
    const auto known = known_.texts.find(at.id);
    if (known != known_.texts.end()) return known->second;
    name = known_.names.try_emplace(at.id, at.path).first->second;
    const auto over = known_.overlays.find(at.id);
    if (over != known_.overlays.end()) overlay = over->second;
  }
  text::ReadResult bytes;
  if (overlay == nullptr)
    bytes = files_->read(at.path);
  else if (overlay->size() > text::largest_file)
    bytes = text::too_large();
  else
    bytes = *overlay;
  Text out;
  if (auto* error = std::get_if<text::ReadError>(&bytes))
    out = std::move(*error);
  else
    out = store.version(name, std::move(std::get<std::string>(bytes)));
  const std::lock_guard lock(mutex_);
  // Another thread may have read it meanwhile, and have found another text on the disk.
  return known_.texts.try_emplace(at.id, std::move(out)).first->second;
}

std::optional<Import> State::import_of(const std::string& id, const std::string& root) const {
  const std::lock_guard lock(mutex_);
  const auto found = known_.imports.find(id);
  if (found == known_.imports.end()) return std::nullopt;
  const Import* import = of_root(found->second, root);
  return import == nullptr ? std::nullopt : std::optional(*import);
}

void State::keep(const std::string& id, const std::string& root, const Import& import) {
  const std::lock_guard lock(mutex_);
  auto& all = known_.imports[id];
  if (of_root(all, root) == nullptr) all.emplace_back(root, import);
}

std::shared_ptr<const Chain> State::chain_of(const std::string& id, const std::string& root) const {
  const std::lock_guard lock(mutex_);
  const auto found = known_.chains.find(id);
  if (found == known_.chains.end()) return nullptr;
  const auto* chain = of_root(found->second, root);
  return chain == nullptr ? nullptr : *chain;
}

void State::keep(const std::string& root, std::shared_ptr<const Chain> chain,
                 std::vector<std::string> needed) {
  const Asked asked{chain->links.front().at.id, root};
  const std::lock_guard lock(mutex_);
  auto& all = known_.chains[asked.first];
  if (of_root(all, root) != nullptr) return;
  all.emplace_back(root, std::move(chain));
  std::vector<std::string>& before = known_.needed[asked];
  for (const std::string& one : before)
    known_.users[one].erase(asked);
  for (const std::string& one : needed)
    known_.users[one].insert(asked);
  before = std::move(needed);
}

std::vector<std::string> State::replace(const std::string& path,
                                        std::shared_ptr<const std::string> text) {
  call(path);
  const std::string id = place_of(path).id;
  const std::lock_guard lock(mutex_);
  if (text == nullptr)
    known_.overlays.erase(id);
  else
    known_.overlays[id] = std::move(text);
  return forget_text(id);
}

std::vector<std::string> State::forget(const std::string& path) {
  const std::string id = place_of(path).id;
  const std::lock_guard lock(mutex_);
  return forget_text(id);
}

/// By who holds the lock.
std::vector<std::string> State::forget_text(const std::string& id) {
  known_.texts.erase(id);
  known_.imports.erase(id);
  std::vector<std::string> told;
  const auto users = known_.users.find(id);
  if (users == known_.users.end()) return told;
  for (const auto& [user, root] : users->second) {
    known_.chains.erase(user);
    told.push_back(known_.names.at(user));
  }
  std::sort(told.begin(), told.end());
  told.erase(std::unique(told.begin(), told.end()), told.end());
  return told;
}

void State::forget_disk() {
  const std::lock_guard lock(mutex_);
  Known kept;
  kept.revision = known_.revision;
  kept.overlays = std::move(known_.overlays);
  kept.names = std::move(known_.names);
  kept.needed = std::move(known_.needed);
  kept.users = std::move(known_.users);
  known_ = std::move(kept);
}

} // namespace norma::workspace
