// Acts at the chair as JSON: typed, and in words.
#pragma once

#include "emit/json.hpp"
#include "plan/acts/act.hpp"

namespace norma::emit {

/// What an argument is: a text of the protocol or kit as a string, a whole number as a number; else
/// an object: `number` with its `unit` where it has one (angles in degrees), `width` and `height`,
/// `teeth` by ISO 3950, or the `key` of a row `with` its arguments; several things as an array.
Json value_json(const diag::Value& value);
Json act_json(const plan::Act& act);

} // namespace norma::emit
