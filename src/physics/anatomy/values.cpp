#include "physics/anatomy/values.hpp"

#include <algorithm>

namespace norma::physics {
namespace {

std::size_t place_of(const Default& row) {
  const auto& rows = defaults::anatomy;
  return static_cast<std::size_t>(std::find(rows.begin(), rows.end(), &row) - rows.begin());
}

} // namespace

AnatomyValues::AnatomyValues() : values_() {
  std::transform(defaults::anatomy.begin(), defaults::anatomy.end(), values_.begin(),
                 [](const Default* row) { return row->value; });
}

void AnatomyValues::set(const Default& row, double value) { values_.at(place_of(row)) = value; }
const OwnTooth* AnatomyValues::own(Tooth tooth) const {
  const auto found = std::find_if(teeth_.begin(), teeth_.end(), [&](const OwnTooth& o) {
    return o.tooth == tooth || o.tooth == tooth.other_side();
  });
  return found == teeth_.end() ? nullptr : &*found;
}

double AnatomyValues::of(const Default& row) const { return values_.at(place_of(row)); }

} // namespace norma::physics
