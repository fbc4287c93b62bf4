// What a protocol file names, and where: views, series, and all that speaks of them. Read from the
// tree alone, so that it is there for a text that is half typed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::server {

enum class Named { view, series };

/// A name where it is given, or where it is spoken of.
struct Mention {
  Named kind = Named::view;
  std::string name;
  text::Span span;
  bool gives = false; // it is given here
};

struct Symbol {
  std::string word; // of the language it starts with: `face view`
  std::string name; // "" where it has none
  std::string title;
  text::Span whole;   // with its block
  text::Span heading; // its name, or its word
  std::vector<Symbol> inner;
};

struct Outline {
  std::vector<Symbol> symbols;
  std::vector<Mention> mentions;
  text::Span builds_on; // the statement
  text::Span protocol;  // its name
};

Outline outline_of(const syntax::Tree& tree, const text::Source& source);
/// The mentions that give a name, and they alone: of a long file in a tenth of the time.
std::vector<Mention> names_given(const syntax::Tree& tree, const text::Source& source);

} // namespace norma::server
