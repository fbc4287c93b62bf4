// A kit read back in words: what the chair has, what nobody has measured, what is due.
#pragma once

#include "emit/document.hpp"
#include "kit/kit.hpp"
#include "wording/wording.hpp"
#include "words/literal.hpp"

namespace norma::emit {

Document kit_words(const kit::Kit& kit, words::Date on, const wording::Language& in);

} // namespace norma::emit
