// Acts at the chair in words.
#pragma once

#include <string>

#include "plan/acts/act.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// `Assistant`.
std::string who_text(plan::Who who, const wording::Language& in);
/// What is done, with its details; not who does it.
std::string act_text(const plan::Act& act, const wording::Language& in);

} // namespace norma::emit
