// The numbers a mouth is built from.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "physics/anatomy/tooth.hpp"
#include "physics/defaults.hpp"
#include "physics/quantity.hpp"

namespace norma::physics {

/// Sizes of a crown that take the place of the handbook's; what is left out stays. They hold for
/// the tooth of the other side, too: the mouth of the model is alike on both.
struct OwnTooth {
  Tooth tooth;
  std::optional<Length> height;
  std::optional<Length> width; // along the arch
  std::optional<Length> depth; // from face to tongue side
  friend bool operator==(const OwnTooth&, const OwnTooth&) = default;
};

/// norma's defaults for the rows of `defaults::anatomy`, or a clinic's own values in their place.
class AnatomyValues {
 public:
  AnatomyValues();
  /// `row` is one of `defaults::anatomy`, `value` in its unit.
  void set(const Default& row, double value);
  void set(const OwnTooth& tooth) { teeth_.push_back(tooth); }

  [[nodiscard]] Length length(const Default& row) const { return of(row) * mm; }
  [[nodiscard]] Angle angle(const Default& row) const { return of(row) * degree; }
  [[nodiscard]] double share(const Default& row) const { return of(row); }

  /// What was set for this tooth or the one of the other side; null where nothing was.
  [[nodiscard]] const OwnTooth* own(Tooth tooth) const;

  friend bool operator==(const AnatomyValues&, const AnatomyValues&) = default;

 private:
  [[nodiscard]] double of(const Default& row) const;
  std::array<double, defaults::anatomy.size()> values_;
  std::vector<OwnTooth> teeth_;
};

} // namespace norma::physics
