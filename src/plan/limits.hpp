// What norma takes for enough: its own choice, or the clinic's.
#pragma once

#include "facts/recorder.hpp"
#include "kit/kit.hpp"

namespace norma::plan {

/// The kit's own value (section `limits`) where it has one, else norma's; `kit` may be null.
facts::Given limit_of(const kit::Kit* kit, const physics::Default& row);

} // namespace norma::plan
