// Statements to typed values.
#pragma once

#include <vector>

#include "model/protocol.hpp"
#include "model/statement.hpp"

namespace norma::model {

/// Sets every field of `view` that a statement speaks of; a broken statement gives a broken value.
void lower_view(const std::vector<Statement>& statements, View& view);
/// Sets the fields of `protocol` itself (revision, sensor, ...).
void lower_protocol(const std::vector<Statement>& statements, Protocol& protocol);

} // namespace norma::model
