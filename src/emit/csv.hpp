// Rows of a table as comma-separated values.
#pragma once

#include <string>
#include <vector>

namespace norma::emit {

/// One row by RFC 4180, its end included. A cell that a spreadsheet would work out as a formula
/// begins with an apostrophe.
std::string csv_row(const std::vector<std::string>& cells);

} // namespace norma::emit
