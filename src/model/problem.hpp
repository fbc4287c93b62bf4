// What is said of a line that cannot be read: a word that nobody knows, values that do not fit.
#pragma once

#include <span>
#include <string_view>

#include "diag/diagnostic.hpp"
#include "model/remedy.hpp"
#include "words/pattern.hpp"
#include "words/vocabulary.hpp"

namespace norma::model {

/// The longest word of the language with which the tokens start, among those that may stand in
/// `place`; null where there is none.
const words::CompiledWord* longest_word(std::span<const words::Token> tokens, unsigned place);
/// The word that these tokens, which stand behind `no`, take away; null where there is none.
const words::CompiledWord* word_taken_away(std::span<const words::Token> tokens, unsigned place);
/// Where the first `count` of them stand.
text::Span words_span(std::span<const words::Token> tokens, std::size_t count);

/// Says that no word of the language stands here, and which one may have been meant. `removes`: they
/// stand behind `no`.
void report_unknown(std::span<const words::Token> tokens, unsigned place,
                    std::string_view place_name, bool removes, diag::Findings& findings);
/// Says why a part of a statement does not fit its word, with a remedy where one is known.
void report_problem(const words::Problem& p, const Trouble& trouble, diag::Findings& findings);

} // namespace norma::model
