// Which teeth stand in the mean arch of a group of patients, and the widths it is made to meet.
#pragma once

#include <optional>
#include <vector>

#include "physics/anatomy/tooth.hpp"
#include "physics/quantity.hpp"

namespace norma::physics {

/// Adult: 1 to 8. Mixed: about nine years, permanent incisors and first molars, milk canines and
/// milk molars. Primary: milk teeth only.
enum class Dentition { adult, mixed, primary };

/// Where a width between first molars was measured.
enum class MolarLandmark { facial_axis, centre };

/// Widths between the right and the left landmark, each at the place along the arch where the
/// sizes put it: the tips of the canines (a little outside of the curve, which runs through the
/// contacts) and the first molars.
struct ArchWidths {
  Length canines;
  Length molars;
  MolarLandmark molars_at = MolarLandmark::facial_axis;
};

/// Half an arch, the patient's right one, from the midline backwards. All rows hold the canine at
/// the third place and the first permanent molar at the sixth.
struct ToothRow {
  std::vector<Tooth> teeth;
  ArchWidths widths;
  Length curve_of_spee;
  [[nodiscard]] bool upper() const { return teeth.front().is_upper(); }
};

/// The mean patient of a group. Nothing for milk teeth: no width between milk molars was found,
/// and with their canines' width alone (27.3 and 23.19 mm at three years) a parabola puts the lower
/// molars outside of the upper ones.
std::optional<ToothRow> mean_row(Dentition dentition, bool upper);

} // namespace norma::physics
