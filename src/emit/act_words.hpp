// Acts at the chair in words.
#pragma once

#include <string>

#include "plan/acts/act.hpp"

namespace norma::emit {

/// `Assistant`.
std::string who_text(plan::Who who);
/// What is done, with its details; not who does it.
std::string act_text(const plan::Act& act);

} // namespace norma::emit
