// Who holds what while the picture is taken.
#pragma once

#include <array>
#include <vector>

#include "plan/plan.hpp"

namespace norma::emit {

/// A list of things for each of `plan::Who`, by its number; the camera is none of them.
std::array<std::vector<diag::Value>, 3> held_by(const plan::Facts& facts);

} // namespace norma::emit
