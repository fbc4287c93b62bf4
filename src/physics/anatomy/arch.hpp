// A dental arch: crowns of handbook sizes laid along a curve that meets published widths.
#pragma once

#include <vector>

#include "physics/anatomy/crown.hpp"

namespace norma::physics {

/// Seen in plan the arch is y = A x^6 + B x^2, x from the midline, y behind the incisors. Source of
/// the form: Noroozi, Hosseinzadeh Nik, Saeeda, Angle Orthod 2001;71:386-389.
struct ArchCurve {
  double a = 0; // mm^-5
  double b = 0; // mm^-1

  [[nodiscard]] Length back_at(Length side) const;
  /// Unit vector along the curve towards the patient's left, in plan.
  [[nodiscard]] Vec along_at(Length side) const;
  /// Where the curve is `arc` long from the midline (arc 0 or more).
  [[nodiscard]] Length side_at_arc(Length arc) const;
};

/// What the curve is made to meet, each landmark at the place along the arch where the sizes put
/// it: the tips of the canines (a little outside of the curve, which runs through the contacts) and
/// the facial-axis points of the first molars (half a tooth's depth outside).
struct ArchWidths {
  Length canines;
  Length molars;
};

/// The curve through both widths for teeth of these sizes: two equations for A and B, solved by
/// Newton's method in a fixed number of steps. Nothing where it does not come to rest on both
/// widths within 0.001 mm.
std::optional<ArchCurve> solve_arch(bool upper, ArchWidths widths);

/// The teeth of an adult's arch, from the patient's right to the left, 18 to 28 or 48 to 38, placed
/// in the frame of geometry.hpp with the teeth together. Worked out once.
const std::vector<Crown>& adult_arch(bool upper);
/// Depth that comes out for it: from the incisors' faces to the facial-axis points of the first
/// molars. Published 31.59 +- 2.90 (upper), 28.10 +- 2.59 (lower), Mina et al. 2017: sizes and
/// widths are kept, and the depth gives.
Length adult_arch_depth(bool upper);

const Crown* find_crown(const std::vector<Crown>& arch, Tooth tooth);

} // namespace norma::physics
