#include "plan/limits.hpp"

#include <algorithm>

namespace norma::plan {

LimitValue limit_of(const kit::Kit* kit, const physics::Default& row) {
  if (kit != nullptr) {
    const auto own =
        std::find_if(kit->limits.begin(), kit->limits.end(),
                     [&](const kit::OwnValue& l) { return l.which == &row && l.value.known(); });
    if (own != kit->limits.end()) return {own->value.get(), Status::measured};
  }
  return {row.value, status_of(row.origin)};
}

Status status_of(physics::Origin origin) {
  switch (origin) {
  case physics::Origin::published: return Status::published;
  case physics::Origin::handbook: return Status::handbook;
  case physics::Origin::assumed: return Status::assumed;
  }
  return Status::assumed;
}

} // namespace norma::plan
