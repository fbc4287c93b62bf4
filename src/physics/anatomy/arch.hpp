// A dental arch: crowns of handbook sizes laid along a curve that meets published widths.
#pragma once

#include <optional>
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

/// The curve through both widths for teeth of these sizes, the canine's tip `canine_tip` outside of
/// it: two equations for A and B, solved by Newton's method with halved steps, from two starts.
/// Nothing where it does not come to rest on both widths within 0.001 mm.
std::optional<ArchCurve> solve_arch(const ToothRow& row,
                                    Length canine_tip = defaults::canine_tip.value * mm);

/// The teeth of a jaw from the patient's right to the left, placed in the frame of geometry.hpp
/// with the teeth together. Nothing where no curve meets the widths.
std::optional<std::vector<Crown>> lay_arch(Dentition dentition, bool upper,
                                           const AnatomyValues& values = {});

const Crown* find_crown(const std::vector<Crown>& arch, Tooth tooth);

} // namespace norma::physics
