// The parts of a statement, kept so that views which say the same share them.
#pragma once

#include <atomic>
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
/// block of memory, which copies share until one is changed. What belongs to one thread is counted
/// at the price of plain numbers; `share` lets several threads copy it.
class Parts {
 public:
  Parts() = default;
  /// Takes copies of `parts`, one behind the other, with their values and pieces.
  explicit Parts(std::span<const Part> parts);
  Parts(const Parts& other) : block_(other.block_) {
    if (block_ != nullptr) block_->take();
  }
  Parts(Parts&& other) noexcept : block_(std::exchange(other.block_, nullptr)) {}
  Parts& operator=(Parts other) noexcept {
    std::swap(block_, other.block_);
    return *this;
  }
  ~Parts() {
    if (block_ != nullptr && block_->let_go()) ::operator delete(block_);
  }
  /// To be called by the thread that it belongs to, before another one sees it.
  void share() {
    if (block_ != nullptr) block_->share();
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
    static constexpr std::uint32_t shared = 0x80000000u; // beside the number of uses
    std::atomic<std::uint32_t> uses;
    std::uint32_t size;
    void take() {
      const std::uint32_t n = uses.load(std::memory_order_relaxed);
      if ((n & shared) == 0)
        uses.store(n + 1, std::memory_order_relaxed);
      else
        uses.fetch_add(1, std::memory_order_relaxed);
    }
    /// True where nobody uses it any more.
    bool let_go() {
      const std::uint32_t n = uses.load(std::memory_order_relaxed);
      if ((n & shared) != 0) return uses.fetch_sub(1, std::memory_order_acq_rel) == (shared | 1u);
      uses.store(n - 1, std::memory_order_relaxed);
      return n == 1;
    }
    void share() {
      const std::uint32_t n = uses.load(std::memory_order_relaxed);
      if ((n & shared) == 0) uses.store(n | shared, std::memory_order_relaxed);
    }
    [[nodiscard]] bool used_alone() const {
      return (uses.load(std::memory_order_acquire) & ~shared) == 1;
    }
    [[nodiscard]] Part* all() { return reinterpret_cast<Part*>(this + 1); }
  };
  Block* block_ = nullptr;
};

} // namespace norma::model
