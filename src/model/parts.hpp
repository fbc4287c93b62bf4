// The parts of a statement, kept so that views which say the same share them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>

#include "text/source.hpp"
#include "words/pattern.hpp"
#include "words/token.hpp"
#include "words/vocabulary.hpp"

namespace norma::model {

/// One part of a statement (between commas) that fits a clause of its word.
struct Part {
  const words::Clause* clause = nullptr;
  std::span<const words::Value> values;
  std::span<const words::Piece> pieces; // how they read
  text::Span span;
};

/// The parts of a statement, in the order of the text, with their values and pieces: all in one
/// block of memory, which copies share until one is changed. Copies are counted without a lock: a
/// protocol and all that is made of it belong to one thread.
class Parts {
 public:
  Parts() = default;
  /// Takes copies of `parts`, one behind the other, with their values and pieces.
  explicit Parts(std::span<const Part> parts);
  Parts(const Parts& other) : block_(other.block_) {
    if (block_ != nullptr) ++block_->uses;
  }
  Parts(Parts&& other) noexcept : block_(std::exchange(other.block_, nullptr)) {}
  Parts& operator=(Parts other) noexcept {
    std::swap(block_, other.block_);
    return *this;
  }
  ~Parts() {
    if (block_ != nullptr && --block_->uses == 0) ::operator delete(block_);
  }

  [[nodiscard]] const Part* begin() const { return block_ != nullptr ? block_->all() : nullptr; }
  [[nodiscard]] const Part* end() const { return begin() + size(); }
  [[nodiscard]] std::size_t size() const { return block_ != nullptr ? block_->size : 0; }
  [[nodiscard]] bool empty() const { return size() == 0; }
  [[nodiscard]] const Part& operator[](std::size_t i) const { return begin()[i]; }
  /// The values of all parts, to be changed; copies of them where others share them.
  std::span<words::Value> own_values();

 private:
  /// Behind it lie `size` parts, then their values, then their pieces.
  struct Block {
    std::uint32_t uses;
    std::uint32_t size;
    [[nodiscard]] Part* all() { return reinterpret_cast<Part*>(this + 1); }
  };
  Block* block_ = nullptr;
};

} // namespace norma::model
