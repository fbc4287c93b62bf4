// The table of words in words, for `norma explain` and the reference.
#include <fmt/core.h>

#include "words/vocabulary.hpp"

namespace norma::words {

/// A pattern of the word table with its variables in capitals: `@f_number` is `F NUMBER`.
std::string pattern_text(std::string_view pattern) {
  std::string out;
  bool variable = false;
  for (const char c : pattern) {
    if (c == '@') {
      variable = true;
      continue;
    }
    variable = variable && ((c >= 'a' && c <= 'z') || c == '_');
    if (!variable) {
      out += c == '|' ? std::string(" | ") : std::string(1, c);
    } else {
      out += c == '_' ? '-' : static_cast<char>(c - 'a' + 'A');
    }
  }
  return out;
}

std::string places_text(unsigned places) {
  std::string out;
  const auto add = [&](unsigned bit, std::string_view name) {
    if ((places & bit) != 0) out += fmt::format("{}{}", out.empty() ? "" : ", ", name);
  };
  add(in_file, "the file");
  add(in_protocol, "a protocol");
  add(in_every, "every mouth view");
  add(in_view, "a view");
  add(in_every_face, "every face view");
  add(in_face, "a face view");
  return out;
}

} // namespace norma::words
