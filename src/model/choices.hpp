// Words of a protocol that are one of a few: an enum each, read by its symbols, printed by its
// terms.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <type_traits>

#include "diag/sentence.hpp"

namespace norma::model {

// clang-format off
#define NORMA_CHOICES(type) enum class type : std::uint8_t {
#define NORMA_CHOICE(type, list, value, symbol) value,
#define NORMA_CHOICES_END(type) };
#include "model/choices.def"
// clang-format on

/// One value of such a list.
template <class E> struct Choice {
  E value;
  std::string_view symbol; // as the word table reads it
  diag::Row term;
};

/// All values of a list, in its order: `all`.
template <class E> struct Choices {};

// clang-format off
#define NORMA_CHOICES(type) \
  template <> struct Choices<type> { static constexpr Choice<type> all[] = {
#define NORMA_CHOICE(type, list, value, symbol) \
  {type::value, symbol, {"word." #list "." #value, 0}},
#define NORMA_CHOICES_END(type) }; };
#include "model/choices.def"
// clang-format on

template <class E>
concept IsChoice = requires {
  Choices<E>::all;
};

/// The value behind a symbol; nothing where the list has no such symbol.
template <IsChoice E> std::optional<E> choice_of(std::string_view symbol) {
  for (const Choice<E>& c : Choices<E>::all) {
    if (c.symbol == symbol) return c.value;
  }
  return std::nullopt;
}

/// The list stands in the order of the values.
template <IsChoice E> constexpr const Choice<E>& row_of(E e) {
  return Choices<E>::all[static_cast<std::size_t>(e)];
}
template <IsChoice E> std::string_view to_text(E e) { return row_of(e).symbol; }
template <IsChoice E> diag::Said term_of(E e) { return {row_of(e).term, {}}; }
/// Nothing is said of what is not there.
template <IsChoice E> diag::Said term_of(const std::optional<E>& e) {
  return e ? term_of(*e) : diag::Said();
}
/// The terms of several, one after the other.
template <class Values> diag::List terms_of(const Values& values) {
  diag::List out;
  for (const auto& v : values)
    out.items.emplace_back(term_of(v));
  return out;
}

} // namespace norma::model
