// What stands behind a key of a kit, told in words for the reference, and as a JSON Schema.
#pragma once

#include <string>

#include "kit/key.hpp"

namespace norma::test {

/// "a length, 1 mm to 500 mm".
std::string written_as(const kit::Form& form);

/// The regular expression (ECMA-262) of one scalar of this form, choices and texts apart.
std::string pattern_of(const kit::Form& form);

/// docs/schema/kit.schema.json.
std::string kit_schema();

} // namespace norma::test
