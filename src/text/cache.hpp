// Results that are kept until room is needed: the one that was used longest ago goes first.
#pragma once

#include <cstddef>
#include <functional>
#include <iterator>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <unordered_map>

namespace norma::text {

/// Immutable values by key, for several threads. All that is kept costs `most` together and no
/// more, in whatever unit `put` is told; 0 keeps nothing. Keys are compared whole.
template <class T, class Key = std::string, class Hash = std::hash<Key>> class Cache {
 public:
  explicit Cache(std::size_t most) : most_(most) {}

  /// Null where it is not kept.
  std::shared_ptr<const T> find(const Key& key) {
    const std::lock_guard lock(mutex_);
    const auto found = by_key_.find(key);
    if (found == by_key_.end()) return nullptr;
    order_.splice(order_.begin(), order_, found->second);
    ++hits_;
    return found->second->value;
  }

  /// The value that is known by this key from now on: one that was there before stays.
  std::shared_ptr<const T> put(const Key& key, std::shared_ptr<const T> value,
                               std::size_t cost = 1) {
    std::list<Entry> gone; // let go of when the lock is
    const std::lock_guard lock(mutex_);
    if (cost > most_) return value;
    const auto [at, fresh] = by_key_.try_emplace(key, order_.end());
    if (!fresh) return at->second->value;
    order_.push_front({key, value, cost});
    at->second = order_.begin();
    cost_ += cost;
    while (cost_ > most_) {
      const auto last = std::prev(order_.end());
      cost_ -= last->cost;
      by_key_.erase(last->key);
      gone.splice(gone.begin(), order_, last);
      ++evicted_;
    }
    return value;
  }

  [[nodiscard]] bool keeps_nothing() const { return most_ == 0; }
  [[nodiscard]] std::size_t size() const {
    return told(order_, [](auto& o) { return o.size(); });
  }
  [[nodiscard]] std::size_t hits() const {
    return told(hits_, [](auto n) { return n; });
  }
  [[nodiscard]] std::size_t evicted() const {
    return told(evicted_, [](auto n) { return n; });
  }

 private:
  struct Entry {
    Key key;
    std::shared_ptr<const T> value;
    std::size_t cost;
  };
  template <class What, class How> std::size_t told(const What& what, How how) const {
    const std::lock_guard lock(mutex_);
    return how(what);
  }

  mutable std::mutex mutex_;
  std::list<Entry> order_; // the one used last is the first
  std::unordered_map<Key, typename std::list<Entry>::iterator, Hash> by_key_;
  std::size_t most_;
  std::size_t cost_ = 0;
  std::size_t hits_ = 0;
  std::size_t evicted_ = 0;
};

} // namespace norma::text
