// What norma takes for enough: its own choice, or the clinic's.
#pragma once

#include "facts/fact.hpp"
#include "kit/kit.hpp"
#include "physics/defaults.hpp"

namespace norma::plan {

struct LimitValue {
  double value; // in the unit of the row
  facts::Status status;
};

/// The kit's own value (section `limits`) where it has one, else norma's.
LimitValue limit_of(const kit::Kit* kit, const physics::Default& row);

/// Status of a default by where it comes from.
facts::Status status_of(physics::Origin origin);

} // namespace norma::plan
