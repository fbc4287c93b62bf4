// textDocument/completion: what may stand here, by the word table and its patterns.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "server/outline.hpp"
#include "syntax/tree.hpp"
#include "text/source.hpp"

namespace norma::server {

struct Completion {
  enum class Kind { word, choice, name, finding, code };
  Kind kind = Kind::word;
  std::string label;
  std::string insert; // in place of what is typed of it
  std::string detail;
  std::string markdown; // with an example
};

struct Completions {
  std::size_t begin = 0; // of what is typed of it; it ends where it was asked
  std::vector<Completion> list;
};

/// `known`: the names of views and series that can be spoken of; asked for where one may stand.
Completions completions_at(const syntax::Tree& tree, const text::Source& source, std::size_t offset,
                           const std::function<std::vector<Mention>()>& known);

} // namespace norma::server
