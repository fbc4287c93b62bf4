// What would mend a statement that cannot be read: an edit of the text, and how it is said.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "diag/diagnostic.hpp"
#include "words/pattern.hpp"
#include "words/vocabulary.hpp"

namespace norma::model {

struct Remedy {
  diag::Fix fix;
  std::string help;
};

/// The part of a statement that holds the problem.
struct Trouble {
  const words::CompiledWord& word;
  std::span<const words::Token> part; // tokens between two commas
  text::Span end;                     // where the part ends
  bool first = false;                 // it stands right behind the word
  text::Span head{};                  // the word
};

/// An edit after which the part can be read, or at least gets further; nothing where none is known.
std::optional<Remedy> remedy_for(const words::Problem& problem, const Trouble& trouble);

} // namespace norma::model
