// A printed page as plain data: headings, paragraphs, lines to tick. Written as plain text or as
// Markdown; everything that comes from a protocol or kit is escaped on its way out.
//
// The folder emit/ turns plans and findings into what people and machines read: pure functions.
#pragma once

#include <string>
#include <vector>

namespace norma::emit {

enum class BlockKind {
  title,
  heading,    // of a part
  subheading, // of a view
  paragraph,
  bullet,
  under,  // a line that belongs to the bullet above it
  tick,   // a line with a box to tick
  blank,  // a line to write on, behind a label
  fields, // several things to tick or to write on, on one line
  sheet,  // the title of a sheet of its own
};

/// A thing to tick, or a place to write on.
struct Field {
  std::string text;
  bool box = false;
  bool line = false;
};

struct Block {
  BlockKind kind = BlockKind::paragraph;
  std::string text;            // of fields: what they are, or ""
  std::vector<Field> fields{}; // of `fields`
};

using Document = std::vector<Block>;

/// Plain text, wrapped at 88 columns.
std::string as_text(const Document& document);
std::string as_markdown(const Document& document);

/// `text` with blanks behind it, or before it, up to `width` columns.
std::string padded(const std::string& text, std::size_t width);
std::string padded_left(const std::string& text, std::size_t width);

/// `text` wrapped at `width` columns; the second and later lines start with `indent` blanks.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent);

} // namespace norma::emit
