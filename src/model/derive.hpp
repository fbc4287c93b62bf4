// Derived views: a resolved view seen from the other side, or in the other jaw.
#pragma once

#include <vector>

#include "diag/diagnostic.hpp"
#include "model/statement.hpp"

namespace norma::model {

enum class Crossing { other_side, other_jaw };

/// `source` mapped statement by statement, by the crossing columns of the word table: quadrants,
/// left and right (or upper and lower), keys and view codes change over; what is the same on both
/// sides (front, cheek) stays; what does not cross is left out. Texts stay as they are written.
/// Twice gives back the source, for all that crosses.
std::vector<Statement> derived(const std::vector<Statement>& source, Crossing crossing);

} // namespace norma::model
