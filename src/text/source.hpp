// Source files and places in them. Places are byte offsets; lines and columns are worked out
// only when somebody prints one.
//
// The folder text/ holds what has to do with characters alone: files, spans, UTF-8, suggestions.
#pragma once

#include <compare>
#include <cstdint>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

namespace norma::text {

/// Index of a file in `Sources`.
enum class FileId : std::uint32_t { none = 0xffffffffu };

/// A stretch of bytes [begin, end) of one file.
struct Span {
  FileId file = FileId::none;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;

  [[nodiscard]] bool known() const { return file != FileId::none; }
  friend auto operator<=>(const Span&, const Span&) = default;
};

/// The smallest span that covers both; both lie in one file.
Span join(Span a, Span b);

/// Line and column, both from 1; columns count characters (code points), not bytes.
struct Place {
  std::uint32_t line = 1;
  std::uint32_t column = 1;
};

/// One file's name and bytes; several threads may read it. A byte order mark at the start counts as
/// no column.
class Source {
 public:
  Source(std::string name, std::string bytes);

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] std::string_view bytes() const { return bytes_; }
  [[nodiscard]] std::string_view text(Span span) const;
  [[nodiscard]] Place place(std::uint32_t offset) const;
  /// The line that holds `offset`, without its line end.
  [[nodiscard]] std::string_view line_at(std::uint32_t offset) const;
  /// Offset of the first byte of the line that holds `offset` (after a byte order mark).
  [[nodiscard]] std::uint32_t line_begin(std::uint32_t offset) const;

 private:
  [[nodiscard]] std::size_t line_index(std::uint32_t offset) const;
  std::string name_;
  std::string bytes_;
  mutable std::once_flag lines_found_;
  mutable std::vector<std::uint32_t> line_starts_;
};

/// All files of one run. Files stay where they are: references to them hold.
class Sources {
 public:
  FileId add(std::string name, std::string bytes);
  /// A file that is held in common with others.
  FileId share(std::shared_ptr<const Source> source);
  [[nodiscard]] const Source& operator[](FileId id) const;
  [[nodiscard]] std::string_view text(Span span) const { return (*this)[span.file].text(span); }
  [[nodiscard]] std::size_t size() const { return files_.size(); }

 private:
  std::vector<std::shared_ptr<const Source>> files_;
};

} // namespace norma::text
