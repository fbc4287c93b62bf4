// What a view says, as bytes: two views with the same bytes say the same.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/statement.hpp"

namespace norma::model {

/// Words, keys, values and texts of `statements`, in their order, so that no two different lists
/// give the same bytes; where they stand in a file is left out.
void write_content(const std::vector<Statement>& statements, std::string& out);
/// The same statements again, without their places; their texts lie in `content`.
std::vector<Statement> read_content(std::string_view content);

} // namespace norma::model
