// textDocument/hover: what a word means, how large a tooth is.
#pragma once

#include <optional>
#include <string>

#include "kit/kit.hpp"
#include "server/cursor.hpp"
#include "text/source.hpp"
#include "wording/wording.hpp"

namespace norma::server {

struct Hover {
  std::string markdown;
  text::Span span;
};

/// A word with its help, patterns and example, as a text in Markdown.
std::string told(const words::CompiledWord& word);

/// Nothing where there is nothing to tell. `kit` says what this clinic's teeth measure; null: the
/// published means.
std::optional<Hover> hover_at(const syntax::Tree& tree, const text::Source& source,
                              std::size_t offset, const kit::Kit* kit,
                              const wording::Language& language);

} // namespace norma::server
