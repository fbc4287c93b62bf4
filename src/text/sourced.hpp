// A value with the place it came from. Absent: nobody wrote it. Broken: somebody wrote something
// that could not be read; it was reported there, and whoever needs it stays silent.
#pragma once

#include <cassert>
#include <optional>
#include <utility>

#include "text/source.hpp"

namespace norma::text {

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

  [[nodiscard]] bool known() const { return value_.has_value(); }
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
  std::optional<T> value_;
  Span span_;
  bool broken_ = false;
};

} // namespace norma::text
