// A value with the place it came from. Absent: nobody wrote it. Broken: somebody wrote something
// that could not be read; it was reported there, and whoever needs it stays silent.
#pragma once

#include <cassert>
#include <memory>
#include <optional>
#include <type_traits>
#include <utility>

#include "text/source.hpp"

namespace norma::text {

/// An optional value that lies elsewhere: where most are absent, each of them costs a pointer only.
template <class T> class Boxed {
 public:
  Boxed() = default;
  explicit Boxed(T value) : value_(std::make_unique<T>(std::move(value))) {}
  Boxed(const Boxed& other) : value_(other.value_ ? std::make_unique<T>(*other) : nullptr) {}
  Boxed(Boxed&&) noexcept = default;
  Boxed& operator=(const Boxed& other) { return *this = Boxed(other); }
  Boxed& operator=(Boxed&&) noexcept = default;
  ~Boxed() = default;

  explicit operator bool() const { return value_ != nullptr; }
  const T& operator*() const { return *value_; }

 private:
  std::unique_ptr<T> value_;
};

template <class T> class Sourced {
 public:
  Sourced() = default;
  Sourced(T value, Span span) : value_(std::move(value)), span_(span) {}
  static Sourced broken(Span span) {
    Sourced s;
    s.span_ = span;
    s.broken_ = true;
    return s;
  }

  [[nodiscard]] bool known() const { return static_cast<bool>(value_); }
  [[nodiscard]] bool absent() const { return !value_ && !broken_; }
  [[nodiscard]] bool broken() const { return broken_; }
  [[nodiscard]] const T& get() const {
    assert(value_);
    return *value_;
  }
  [[nodiscard]] T value_or(T other) const { return value_ ? *value_ : std::move(other); }
  [[nodiscard]] Span span() const { return span_; }
  const T* operator->() const { return &get(); }

 private:
  // A view has some sixty of these and says a dozen.
  static constexpr bool large = sizeof(T) > 2 * sizeof(void*);
  std::conditional_t<large, Boxed<T>, std::optional<T>> value_;
  Span span_;
  bool broken_ = false;
};

} // namespace norma::text
