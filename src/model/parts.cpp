#include "model/parts.hpp"

#include <memory>
#include <new>
#include <type_traits>

namespace norma::model {
namespace {

// A block is freed without a look at what lies in it.
template <class T>
constexpr bool fits_a_block = std::is_trivially_copyable_v<T>&& std::is_trivially_destructible_v<T>;
static_assert(fits_a_block<Part> && fits_a_block<words::Value> && fits_a_block<words::Piece>);
static_assert(alignof(Part) == 8 && alignof(words::Value) == 8 && alignof(words::Piece) == 8);

} // namespace

Parts::Parts(std::span<const Part> parts) {
  if (parts.empty()) return;
  std::size_t values = 0;
  std::size_t pieces = 0;
  for (const Part& part : parts) {
    values += part.values.size();
    pieces += part.pieces.size();
  }
  static_assert(sizeof(Block) == 8);
  void* memory = ::operator new(sizeof(Block) + parts.size() * sizeof(Part) +
                                values * sizeof(words::Value) + pieces * sizeof(words::Piece));
  block_ = new (memory) Block{1, static_cast<std::uint32_t>(parts.size())};
  Part* part = block_->all();
  auto* value = reinterpret_cast<words::Value*>(part + parts.size());
  auto* piece = reinterpret_cast<words::Piece*>(value + values);
  const auto put = [](const auto& from, auto*& at) {
    const std::span copies(at, from.size());
    at = std::uninitialized_copy(from.begin(), from.end(), at);
    return copies;
  };
  for (const Part& from : parts)
    new (part++) Part{from.clause, put(from.values, value), put(from.pieces, piece), from.span};
}

std::span<words::Value> Parts::own_values() {
  if (empty()) return {};
  if (!block_->used_alone()) *this = Parts(std::span(begin(), size()));
  std::size_t count = 0;
  for (const Part& part : *this)
    count += part.values.size();
  return {reinterpret_cast<words::Value*>(block_->all() + size()), count};
}

} // namespace norma::model
