// A tooth by its number in ISO 3950 (two-digit notation).
#pragma once

#include <compare>
#include <optional>

namespace norma::physics {

/// Quadrants 1 to 4 hold permanent teeth (positions 1 to 8), 5 to 8 milk teeth (1 to 5); 1, 4, 5
/// and 8 are the patient's right, 1, 2, 5 and 6 the upper jaw.
class Tooth {
 public:
  constexpr Tooth() = default;
  /// The tooth with this number; nothing where there is none.
  static constexpr std::optional<Tooth> from_iso(int iso) {
    const int q = iso / 10;
    const int p = iso % 10;
    if (q < 1 || q > 8 || p < 1 || p > (q <= 4 ? 8 : 5)) return std::nullopt;
    Tooth t;
    t.iso_ = iso;
    return t;
  }
  [[nodiscard]] constexpr int iso() const { return iso_; }
  [[nodiscard]] constexpr int quadrant() const { return iso_ / 10; }
  /// 1 = central incisor.
  [[nodiscard]] constexpr int position() const { return iso_ % 10; }
  [[nodiscard]] constexpr bool is_primary() const { return iso_ >= 50; }
  [[nodiscard]] constexpr bool is_upper() const {
    const int q = quadrant();
    return q == 1 || q == 2 || q == 5 || q == 6;
  }
  [[nodiscard]] constexpr bool is_right() const {
    const int q = quadrant();
    return q == 1 || q == 4 || q == 5 || q == 8;
  }
  /// 1 and 2, 3 and 4, 5 and 6, 7 and 8 change over.
  [[nodiscard]] constexpr Tooth other_side() const {
    return of(quadrant() % 2 == 1 ? quadrant() + 1 : quadrant() - 1, position());
  }
  /// 1 and 4, 2 and 3, 5 and 8, 6 and 7 change over.
  [[nodiscard]] constexpr Tooth other_jaw() const {
    const int base = is_primary() ? 4 : 0;
    return of(base + 5 - (quadrant() - base), position());
  }
  /// The milk tooth that stands where this permanent one will: 1 to 5 have one.
  [[nodiscard]] constexpr std::optional<Tooth> predecessor() const {
    if (is_primary() || position() > 5) return std::nullopt;
    return of(quadrant() + 4, position());
  }
  /// The permanent tooth that comes where this milk tooth stands.
  [[nodiscard]] constexpr std::optional<Tooth> successor() const {
    if (!is_primary()) return std::nullopt;
    return of(quadrant() - 4, position());
  }
  friend constexpr auto operator<=>(Tooth, Tooth) = default;

 private:
  static constexpr Tooth of(int quadrant, int position) {
    Tooth t;
    t.iso_ = quadrant * 10 + position;
    return t;
  }
  int iso_ = 11;
};

} // namespace norma::physics
