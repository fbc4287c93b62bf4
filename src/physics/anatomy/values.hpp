// The numbers a mouth is built from.
#pragma once

#include <array>

#include "physics/defaults.hpp"
#include "physics/quantity.hpp"

namespace norma::physics {

/// norma's defaults for the rows of `defaults::anatomy`, or a clinic's own values in their place.
class AnatomyValues {
 public:
  AnatomyValues();
  /// `row` is one of `defaults::anatomy`, `value` in its unit.
  void set(const Default& row, double value);

  [[nodiscard]] Length length(const Default& row) const { return of(row) * mm; }
  [[nodiscard]] Angle angle(const Default& row) const { return of(row) * degree; }
  [[nodiscard]] double share(const Default& row) const { return of(row); }

  friend bool operator==(const AnatomyValues&, const AnatomyValues&) = default;

 private:
  [[nodiscard]] double of(const Default& row) const;
  std::array<double, defaults::anatomy.size()> values_;
};

} // namespace norma::physics
