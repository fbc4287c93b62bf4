// A dental arch: crowns of handbook sizes laid along a curve that meets published widths.
#pragma once

#include <vector>

#include "physics/anatomy/crown.hpp"
#include "physics/anatomy/dentition.hpp"

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

/// The curve through both widths for teeth of these sizes: two equations for A and B, solved by
/// Newton's method in at most thirty steps. Nothing where it does not come to rest on both
/// widths within 0.001 mm.
std::optional<ArchCurve> solve_arch(const ToothRow& row);
/// The same for an adult's teeth with other widths.
std::optional<ArchCurve> solve_arch(bool upper, ArchWidths widths);

/// The teeth of the mean patient of a group, from the patient's right to the left, placed in the
/// frame of geometry.hpp with the teeth together. Worked out once. Null where there is no such row.
const std::vector<Crown>* mean_arch(Dentition dentition, bool upper);

/// The same for adults, 18 to 28 or 48 to 38.
const std::vector<Crown>& adult_arch(bool upper);
/// Depth that comes out for it: from the incisors' faces to the facial-axis points of the first
/// molars. Published 31.59 +- 2.90 (upper), 28.10 +- 2.59 (lower), Mina et al. 2017: sizes and
/// widths are kept, and the depth gives.
Length adult_arch_depth(bool upper);

/// The grid of 5 x 5 points of a surface of `crown`, which stands in the mean arch of that group.
/// Worked out once.
const std::vector<SurfacePoint>& mean_surface(Dentition dentition, const Crown& crown,
                                              Surface surface);

const Crown* find_crown(const std::vector<Crown>& arch, Tooth tooth);

} // namespace norma::physics
