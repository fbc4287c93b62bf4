// textDocument/definition, references, rename: names of views and series through all protocols that
// build on each other.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "server/outline.hpp"
#include "workspace/workspace.hpp"

namespace norma::server {

/// A file, what it names, and its text: places in it are of that.
struct Outlined {
  std::string path;
  std::string file; // as the disk has it
  std::shared_ptr<const workspace::Version> version;
  Outline outline;
};

/// A protocol and what it builds on, the nearest first; nothing where it cannot be read.
std::vector<Outlined> chain_of(const workspace::Snapshot& files, const std::string& path,
                               const std::string& root);

/// Names that can be spoken of in a file: its own, and those of what it builds on.
std::vector<Mention> names_given_in(const workspace::Snapshot& files, const std::string& path,
                                    const std::string& root);

/// The view or series that is named at a place of the first of them; null where none is.
const Mention* mention_at(const Outlined& file, std::size_t offset);

struct Found {
  std::string path;
  std::shared_ptr<const workspace::Version> version;
  text::Span span;
  bool gives = false;
};

/// Where a name is given, or what a protocol builds on; nothing where that is not known.
std::optional<Found> definition_at(const std::vector<Outlined>& chain, std::size_t offset);

/// All places that speak of what is named there, in `candidates` (paths of protocols).
std::vector<Found> references_at(const workspace::Snapshot& files,
                                 const std::vector<Outlined>& chain, std::size_t offset,
                                 const std::vector<std::string>& candidates,
                                 const std::string& root, const workspace::Cancel& cancel);

/// Is it a name of the language?
bool is_name(std::string_view text);
/// The path of a protocol in which `name` of this kind is known already; nothing where none is.
std::optional<std::string> taken_in(const workspace::Snapshot& files, Named kind,
                                    std::string_view name, const std::vector<Found>& where,
                                    const std::string& root);

} // namespace norma::server
