// textDocument/formatting: the one layout of `norma tidy`.
#pragma once

#include <optional>
#include <string>

#include "server/documents.hpp"
#include "workspace/workspace.hpp"

namespace norma::server {

/// A stretch of bytes, and what is put in its place.
struct Patch {
  std::size_t begin = 0;
  std::size_t end = 0;
  std::string text;
};

/// What `tidy` does to the text, as the lines that differ; an empty stretch without text where it
/// is in that layout. Nothing where the parser made a finding: then nobody knows what is meant.
std::optional<Patch> tidied(const Document& document, const workspace::Snapshot& files);

} // namespace norma::server
