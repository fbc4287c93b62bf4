// Two lists, paired one to one: by one key after the other, each item once.
#pragma once

#include <cstddef>
#include <map>
#include <utility>
#include <vector>

namespace norma::review {

/// Two lists, matched: pairs of places, -1 where one side has none; in the order of what is after,
/// then what there is no longer.
using Matching = std::vector<std::pair<int, int>>;

class Pairing {
 public:
  Pairing(std::size_t before, std::size_t after) : of_before_(before, -1), of_after_(after, -1) {}

  void pair(std::size_t before, std::size_t after) {
    of_before_[before] = static_cast<int>(after);
    of_after_[after] = static_cast<int>(before);
  }
  [[nodiscard]] bool free_before(std::size_t i) const { return of_before_[i] < 0; }
  [[nodiscard]] bool free_after(std::size_t i) const { return of_after_[i] < 0; }
  [[nodiscard]] std::vector<std::size_t> left_before() const { return left(of_before_); }
  [[nodiscard]] std::vector<std::size_t> left_after() const { return left(of_after_); }

  /// Pairs those that are left and have the same key, the first with the first. `before` and
  /// `after` give the key of a place, as an optional: what has none is like nothing.
  template <class Before, class After> void by(Before before, After after) {
    std::map<typename decltype(before(0))::value_type, std::vector<std::size_t>> free;
    const std::vector<std::size_t> all = left_before();
    for (auto i = all.rbegin(); i != all.rend(); ++i) {
      if (const auto key = before(*i)) free[*key].push_back(*i);
    }
    for (const std::size_t i : left_after()) {
      const auto key = after(i);
      const auto found = key ? free.find(*key) : free.end();
      if (found == free.end() || found->second.empty()) continue;
      pair(found->second.back(), i);
      found->second.pop_back();
    }
  }

  [[nodiscard]] Matching matching() const {
    Matching out;
    for (std::size_t i = 0; i < of_after_.size(); ++i)
      out.emplace_back(of_after_[i], static_cast<int>(i));
    for (const std::size_t i : left_before())
      out.emplace_back(static_cast<int>(i), -1);
    return out;
  }

 private:
  static std::vector<std::size_t> left(const std::vector<int>& of) {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < of.size(); ++i) {
      if (of[i] < 0) out.push_back(i);
    }
    return out;
  }
  std::vector<int> of_before_;
  std::vector<int> of_after_;
};

} // namespace norma::review
