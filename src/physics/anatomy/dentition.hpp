// Which teeth stand in the mean arch of a group of patients, and the widths it is made to meet.
#pragma once

#include <vector>

#include "physics/anatomy/crown.hpp"
#include "physics/anatomy/tooth.hpp"
#include "physics/anatomy/values.hpp"
#include "physics/quantity.hpp"

namespace norma::physics {

/// Adult: 1 to 8. Mixed: about nine years, permanent incisors and first molars, milk canines and
/// milk molars. Primary: milk teeth only, three to six years.
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
/// the third place and the first permanent molar at the sixth; of milk teeth only the five in front
/// of it stand, and the molar marks the place where it will come.
struct ToothRow {
  std::vector<Tooth> teeth;
  std::size_t standing; // teeth that are there, from the midline
  ArchWidths widths;
  Length curve_of_spee;
  Length space{}; // between neighbours, from the midline to the first tooth behind the canine
  std::vector<CrownSize> sizes{}; // of each tooth
  [[nodiscard]] bool upper() const { return teeth.front().is_upper(); }
};

/// Does a row of `defaults::anatomy` count for patients of this group?
bool counts_for(const Default& row, Dentition dentition);
/// Does this tooth, or the one of the other side, stand in the mean arch of this group?
bool stands_in(Tooth tooth, Dentition dentition);

/// The row of a patient of a group.
ToothRow tooth_row(Dentition dentition, bool upper, const AnatomyValues& values = {});

} // namespace norma::physics
