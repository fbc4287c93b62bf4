// YAML as a small tree with places. Stricter than YAML: one document, no anchors, aliases or tags,
// no key twice, at most 16 levels, no control characters, every quote closed. Nothing is turned
// into a number here: scalars stay text.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diag/diagnostic.hpp"
#include "text/source.hpp"

namespace norma::kit {

struct YamlEntry;

struct Yaml {
  enum class Kind { null, scalar, list, map };
  Kind kind = Kind::null;
  std::string text;    // of a scalar, without its quotes
  bool quoted = false; // or a block of text (`|`, `>`): its bytes are not those of `text`
  text::Span span;     // a scalar's first line; the first character of a list or map
  std::vector<Yaml> items;
  std::vector<YamlEntry> entries;
};

struct YamlEntry {
  std::string key;
  text::Span key_span;
  Yaml value;
};

inline constexpr int deepest_yaml = 16;
/// Kits and project files are a page of text; a larger file is refused before it is parsed.
inline constexpr std::size_t largest_kit = 1024 * 1024;
/// Keys, values, lists and maps in one file.
inline constexpr std::size_t most_nodes = 20000;

/// At most 60 characters of a text from the file, for a message.
std::string excerpt(std::string_view text);

/// Reads file `id`; nothing where it cannot be read (reported). Linear in the file's size.
/// `how_it_starts` is said of an empty one.
std::optional<Yaml> read_yaml(text::FileId id, std::string_view bytes, diag::Findings& findings,
                              std::string_view how_it_starts);

} // namespace norma::kit
