#include "workspace/store.hpp"

#include <algorithm>
#include <utility>

namespace norma::workspace {

Counters operator-(const Counters& a, const Counters& b) {
  return {a.parsed - b.parsed,     a.declared - b.declared,   a.built - b.built,
          a.resolved - b.resolved, a.kits_read - b.kits_read, a.views_worked - b.views_worked,
          a.checked - b.checked,   a.hits - b.hits,           a.evicted - b.evicted};
}

Store::Store(Limits limits)
    : parsed(limits.parsed), declared(limits.declared), built(limits.built),
      resolved(limits.resolved), kits(limits.kits), checked(limits.checked), works(limits.views),
      limits_(limits) {}

std::shared_ptr<const Version> Store::version(const std::string& name, std::string bytes) {
  const std::lock_guard lock(mutex_);
  constexpr std::size_t few = 1000;
  if (versions_.size() > 2 * swept_ + few) {
    std::erase_if(versions_, [](const auto& named) {
      return std::all_of(named.second.begin(), named.second.end(),
                         [](const auto& version) { return version.expired(); });
    });
    swept_ = versions_.size();
  }
  auto& all = versions_[name];
  std::erase_if(all, [](const auto& version) { return version.expired(); });
  for (const auto& weak : all) {
    auto known = weak.lock();
    if (known && known->source->bytes() == bytes) return known;
  }
  auto made = std::make_shared<const Version>(
      Version{static_cast<text::FileId>(last_id_++),
              std::make_shared<const text::Source>(name, std::move(bytes))});
  all.push_back(made);
  return made;
}

std::shared_ptr<const Version> Store::twin(const Version& version) {
  const std::lock_guard lock(mutex_);
  return std::make_shared<const Version>(
      Version{static_cast<text::FileId>(last_id_++), version.source});
}

Counters Store::counters() const {
  Counters out;
  out.parsed = worked.parsed;
  out.declared = worked.declared;
  out.built = worked.built;
  out.resolved = worked.resolved;
  out.kits_read = worked.kits_read;
  out.checked = worked.checked;
  out.views_worked = works.worked();
  out.hits = parsed.hits() + declared.hits() + built.hits() + resolved.hits() + kits.hits() +
             checked.hits() + works.hits();
  out.evicted = parsed.evicted() + declared.evicted() + built.evicted() + resolved.evicted() +
                kits.evicted() + checked.evicted() + works.evicted();
  return out;
}

} // namespace norma::workspace
