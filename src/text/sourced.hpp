// A value with the place it came from. Absent: nobody wrote it. Broken: somebody wrote something
// that could not be read; it was reported there, and whoever needs it stays silent.
#pragma once

#include <cassert>
#include <memory>
#include <optional>
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
  Sourced(T value, Span span) : written_(Written{std::move(value), span}) {}
  static Sourced broken(Span span) {
    Sourced s;
    s.written_ = Boxed<Written>({std::nullopt, span});
    return s;
  }

  [[nodiscard]] bool known() const { return written_ && (*written_).value; }
  [[nodiscard]] bool absent() const { return !written_; }
  [[nodiscard]] bool broken() const { return written_ && !(*written_).value; }
  [[nodiscard]] const T& get() const {
    assert(known());
    return *(*written_).value;
  }
  [[nodiscard]] T value_or(T other) const { return known() ? get() : std::move(other); }
  [[nodiscard]] Span span() const { return written_ ? (*written_).span : Span{}; }
  const T* operator->() const { return &get(); }

 private:
  struct Written {
    std::optional<T> value; // nothing: broken
    Span span;
  };
  // A view has some sixty of these and says a dozen.
  Boxed<Written> written_;
};

} // namespace norma::text
