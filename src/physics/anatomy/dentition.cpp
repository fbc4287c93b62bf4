#include "physics/anatomy/dentition.hpp"

#include <algorithm>
#include <iterator>
#include <span>
#include <utility>

namespace norma::physics {
namespace {

constexpr int upper_adult[] = {11, 12, 13, 14, 15, 16, 17, 18};
constexpr int lower_adult[] = {41, 42, 43, 44, 45, 46, 47, 48};
constexpr int upper_mixed[] = {11, 12, 53, 54, 55, 16};
constexpr int lower_mixed[] = {41, 42, 83, 84, 85, 46};
constexpr int upper_milk[] = {51, 52, 53, 54, 55, 16};
constexpr int lower_milk[] = {81, 82, 83, 84, 85, 46};
constexpr std::size_t milk_standing = 5;
constexpr double spaces = 7; // in the midline, and three on each side

std::vector<Tooth> teeth(std::span<const int> numbers) {
  std::vector<Tooth> out;
  for (const int iso : numbers)
    out.push_back(*Tooth::from_iso(iso));
  return out;
}

ToothRow row_of(Dentition dentition, bool upper, const AnatomyValues& values) {
  namespace d = defaults;
  switch (dentition) {
  case Dentition::adult: break;
  case Dentition::mixed:
    return {teeth(upper ? upper_mixed : lower_mixed),
            std::size(upper_mixed),
            {values.length(upper ? d::upper_canine_width_mixed : d::lower_canine_width_mixed),
             values.length(upper ? d::upper_molar_width_mixed : d::lower_molar_width_mixed),
             MolarLandmark::centre},
            values.length(d::curve_of_spee_mixed)};
  case Dentition::primary:
    return {teeth(upper ? upper_milk : lower_milk),
            milk_standing,
            {values.length(upper ? d::upper_canine_width_milk : d::lower_canine_width_milk),
             values.length(upper ? d::upper_molar_width_milk : d::lower_molar_width_milk),
             MolarLandmark::centre},
            values.length(d::curve_of_spee_milk),
            values.length(upper ? d::upper_spaces_milk : d::lower_spaces_milk) / spaces};
  }
  return {teeth(upper ? upper_adult : lower_adult),
          std::size(upper_adult),
          {values.length(upper ? d::upper_canine_width : d::lower_canine_width),
           values.length(upper ? d::upper_molar_width : d::lower_molar_width)},
          values.length(d::curve_of_spee),
          values.length(upper ? d::upper_spaces : d::lower_spaces) / spaces};
}

} // namespace

ToothRow tooth_row(Dentition dentition, bool upper, const AnatomyValues& values) {
  ToothRow row = row_of(dentition, upper, values);
  for (const Tooth tooth : row.teeth)
    row.sizes.push_back(crown_size(tooth, values));
  return row;
}

bool counts_for(const Default& row, Dentition dentition) {
  namespace d = defaults;
  constexpr std::pair<const Default*, Dentition> of_one_group[] = {
      {&d::upper_canine_width, Dentition::adult},
      {&d::lower_canine_width, Dentition::adult},
      {&d::upper_molar_width, Dentition::adult},
      {&d::lower_molar_width, Dentition::adult},
      {&d::upper_spaces, Dentition::adult},
      {&d::lower_spaces, Dentition::adult},
      {&d::curve_of_spee, Dentition::adult},
      {&d::upper_canine_width_mixed, Dentition::mixed},
      {&d::lower_canine_width_mixed, Dentition::mixed},
      {&d::upper_molar_width_mixed, Dentition::mixed},
      {&d::lower_molar_width_mixed, Dentition::mixed},
      {&d::curve_of_spee_mixed, Dentition::mixed},
      {&d::upper_canine_width_milk, Dentition::primary},
      {&d::lower_canine_width_milk, Dentition::primary},
      {&d::upper_molar_width_milk, Dentition::primary},
      {&d::lower_molar_width_milk, Dentition::primary},
      {&d::upper_spaces_milk, Dentition::primary},
      {&d::lower_spaces_milk, Dentition::primary},
      {&d::curve_of_spee_milk, Dentition::primary},
  };
  const auto found = std::find_if(std::begin(of_one_group), std::end(of_one_group),
                                  [&](const auto& pair) { return pair.first == &row; });
  return found == std::end(of_one_group) || found->second == dentition;
}

bool stands_in(Tooth tooth, Dentition dentition) {
  const ToothRow row = tooth_row(dentition, tooth.is_upper());
  const auto end = row.teeth.begin() + static_cast<std::ptrdiff_t>(row.standing);
  return std::any_of(row.teeth.begin(), end,
                     [&](Tooth t) { return t == tooth || t == tooth.other_side(); });
}

} // namespace norma::physics
