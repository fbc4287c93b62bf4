// What stands behind a key of a kit, or of a project file: in words for the reference, and as a
// JSON Schema.
#pragma once

#include <string>
#include <vector>

#include "kit/key.hpp"

namespace norma::test {

/// "a length, 1 mm to 500 mm".
std::string written_as(const kit::Form& form);

/// The keys of one block as a table in Markdown.
std::string table_of(const std::vector<kit::Row>& rows);

/// The regular expression (ECMA-262) of one scalar of this form, choices and texts apart.
std::string pattern_of(const kit::Form& form);

/// docs/schema/kit.schema.json.
std::string kit_schema();
/// docs/schema/project.schema.json.
std::string project_schema();

} // namespace norma::test
