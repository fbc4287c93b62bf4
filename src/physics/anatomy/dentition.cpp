#include "physics/anatomy/dentition.hpp"

#include <span>

#include "physics/defaults.hpp"

namespace norma::physics {
namespace {

constexpr int upper_adult[] = {11, 12, 13, 14, 15, 16, 17, 18};
constexpr int lower_adult[] = {41, 42, 43, 44, 45, 46, 47, 48};
constexpr int upper_mixed[] = {11, 12, 53, 54, 55, 16};
constexpr int lower_mixed[] = {41, 42, 83, 84, 85, 46};

std::vector<Tooth> teeth(std::span<const int> numbers) {
  std::vector<Tooth> out;
  for (const int iso : numbers)
    out.push_back(*Tooth::from_iso(iso));
  return out;
}

Length length(const Default& d) { return d.value * mm; }

} // namespace

std::optional<ToothRow> mean_row(Dentition dentition, bool upper) {
  namespace d = defaults;
  switch (dentition) {
  case Dentition::adult:
    return ToothRow{teeth(upper ? upper_adult : lower_adult),
                    {length(upper ? d::upper_canine_width : d::lower_canine_width),
                     length(upper ? d::upper_molar_width : d::lower_molar_width)},
                    length(d::curve_of_spee)};
  case Dentition::mixed:
    return ToothRow{teeth(upper ? upper_mixed : lower_mixed),
                    {length(upper ? d::upper_canine_width_mixed : d::lower_canine_width_mixed),
                     length(upper ? d::upper_molar_width_mixed : d::lower_molar_width_mixed),
                     MolarLandmark::centre},
                    length(d::curve_of_spee_mixed)};
  case Dentition::primary: break;
  }
  return std::nullopt;
}

} // namespace norma::physics
