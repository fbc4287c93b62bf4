// Kits drawn from the tables of keys and from the values of the shipped kits.
#pragma once

#include <string>

#include "draw.hpp"

namespace norma::test::meta {

/// The text of a kit called `name`, read without a finding: a shipped one with its values changed
/// within their ranges, with limits and sizes of patients drawn from their tables.
std::string draw_kit(Dice& dice, const std::string& name);

/// The same kit with left and right changed over.
std::string kit_of_other_side(const std::string& kit);

} // namespace norma::test::meta
