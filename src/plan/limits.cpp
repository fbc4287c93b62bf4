#include "plan/limits.hpp"

#include <algorithm>

namespace norma::plan {

facts::Given limit_of(const kit::Kit* kit, const physics::Default& row) {
  if (kit == nullptr) return row;
  const auto own =
      std::find_if(kit->limits.begin(), kit->limits.end(),
                   [&](const kit::OwnValue& l) { return l.which == &row && l.value.known(); });
  return {row, own == kit->limits.end() ? std::nullopt : std::optional(own->value.get())};
}

} // namespace norma::plan
