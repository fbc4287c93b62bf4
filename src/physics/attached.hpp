// What is put on a lens: a close-up lens in front of it, a tube and a converter behind it; and the
// lens without any of them that sees as the whole does. Formulas of thin lenses, as handbooks of
// photographic optics have them (Ray, Applied Photographic Optics, from memory).
#pragma once

#include <optional>
#include <span>

#include "physics/optics.hpp"
#include "physics/quantity.hpp"

namespace norma::physics {

/// A lens with nothing on it.
struct BareLens {
  Length focal_length;
  PupilRatio pupil{1};
  std::span<const DistanceAtRatio> distances; // front to subject, sorted as for working_distance()
};

/// What is put on it.
struct Attached {
  std::optional<Length> close_up; // its focal length, 1/D
  Length tube;                    // directly behind the lens
  double converter = 1;           // its factor; behind the tube

  [[nodiscard]] bool nothing() const { return !close_up && tube == Length{} && converter == 1; }
};

/// Front of the bare lens to the subject at its own ratio: as measured, between two rows linear in
/// 1/m; beyond them f (1/m - 1/m_end) more; f (1 + 1/m) where nothing is measured.
Length bare_distance(const BareLens& lens, Magnification own);

/// Ratio of the whole, the lens itself set to `own`: a tube of length e makes m + e/f of it, a
/// converter c times that; a close-up lens of focal length F, subject w away without it, 1 + w/F
/// times that (the subject's image by the close-up lens lies where the subject lay).
Magnification ratio_with(const BareLens& lens, const Attached& on, Magnification own);

/// What the lens itself is set to for a ratio of the whole, by bisection to a part in 10^9; nothing
/// where no setting from 1:10000 on gives it.
std::optional<Magnification> own_ratio(const BareLens& lens, const Attached& on,
                                       Magnification whole);

/// Front to subject with all on it. `bare`: the same without, at the lens's own ratio. With a tube
/// the lens comes nearer by f (1/own - 1/(own + e/f)); a close-up lens: 1/w' = 1/w + 1/F.
Length distance_with(const BareLens& lens, const Attached& on, Magnification own, Length bare);

/// The bare lens with the same pupil, field and cone of light as the whole at that setting, its
/// f-numbers those of the lens times the converter: every formula for a bare lens holds of it. With
/// a converter c it is c f and c P. A close-up lens shows the entrance pupil, z behind it, at
/// z/(1 - z/F) and 1/(1 - z/F) times as wide: f/(1 - z/F), and P m'/m as behind it nothing changes.
/// Nothing where the pupil lies as far behind the close-up lens as its focus, or nearly.
struct Equivalent {
  Length focal_length;
  PupilRatio pupil{1};
};
std::optional<Equivalent> equivalent_of(const BareLens& lens, const Attached& on,
                                        Magnification own);

/// An f-number of the lens, as it is with a converter of that factor behind it: N c. It loses
/// 2 log2(c) stops.
FNumber f_number_with(FNumber own, double converter);

} // namespace norma::physics
