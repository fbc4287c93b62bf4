// A piece of a kit in words, by its table: what is there, and what nobody has given.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "kit/key.hpp"

namespace norma::kit {

/// `pattern` with `value` for its `{}`.
std::string filled(std::string_view pattern, std::string_view value);

/// Its name, or "a lamp" where it has none.
template <class T> std::string name_of(const T& piece, std::string_view otherwise) {
  if constexpr (requires { piece.name; }) {
    return piece.name.value_or(std::string(otherwise));
  } else {
    return std::string(otherwise);
  }
}

/// The rows of a table in the order of telling: `after` names the key that a row is told behind.
template <class T, class After>
std::vector<const Key<T>*> told_order(std::span<const Key<T>> keys, After after) {
  std::vector<const Key<T>*> order;
  for (const Key<T>& k : keys)
    if (after(k).empty()) order.push_back(&k);
  const auto named = [&](std::string_view name) {
    return std::find_if(order.begin(), order.end(),
                        [&](const Key<T>* k) { return k->name == name; });
  };
  for (bool moved = true; moved;) {
    moved = false;
    for (const Key<T>& k : keys) {
      if (named(k.name) != order.end()) continue;
      const auto other = named(after(k));
      if (other == order.end()) continue;
      order.insert(other + 1, &k);
      moved = true;
    }
  }
  return order;
}

/// The parts that are known, behind `start`.
template <class T>
std::string line_of(const Section<T>& section, const T& piece, std::string start) {
  for (const Key<T>* k : told_order(section.keys, [](const auto& key) { return key.said.after; })) {
    if (k->said.pattern.empty()) continue;
    const std::string value = k->field.text(piece);
    if (value.empty()) continue;
    if (!start.empty()) start += k->said.join;
    start += filled(k->said.pattern, value);
  }
  return start;
}

/// What nobody has given of a piece, and what hangs on it: "offset of NAME: shadows and glare".
template <class T>
void add_missing(const Section<T>& section, const T& piece, std::string_view name,
                 std::vector<std::string>& out) {
  for (const Key<T>* k :
       told_order(section.keys, [](const auto& key) { return key.absence.after; })) {
    const Absence<T>& absence = k->absence;
    if (!k->field.absent(piece)) {
      if (k->field.missing_below != nullptr) k->field.missing_below(piece, name, out);
    } else if (!absence.what.empty() && (absence.asked == nullptr || absence.asked(piece))) {
      out.push_back(filled(absence.what, name) + ": " + std::string(absence.why));
    }
  }
}

} // namespace norma::kit
