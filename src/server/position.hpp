// Places as editors count them: lines from 0, and in a line the units of an encoding.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace norma::server {

/// What a place in a line is counted in; an editor and the server agree on it.
enum class Encoding { utf16, utf8 };

struct Position {
  std::uint32_t line = 0;
  std::uint32_t character = 0;
  friend auto operator<=>(const Position&, const Position&) = default;
};

struct Range {
  Position start;
  Position end;
  friend auto operator<=>(const Range&, const Range&) = default;
};

/// Where the lines of a text begin. They end in LF, CR LF, or CR alone.
class Lines {
 public:
  /// `hidden_mark`: a byte order mark that stands in front is no part of what an editor shows (it
  /// is that of a file on the disk). The text outlives this.
  explicit Lines(std::string_view text, bool hidden_mark = false);

  [[nodiscard]] std::size_t count() const { return starts_.size(); }
  /// In the middle of a character: where that begins. Behind the end: the end.
  [[nodiscard]] Position at(std::size_t offset, Encoding in) const;
  /// Behind the end of a line: its end. In the middle of a character: where that begins.
  [[nodiscard]] std::size_t offset(Position at, Encoding in) const;
  /// Where a line, and where what stands in it (without its line end) begins and ends.
  [[nodiscard]] std::size_t begin_of(std::size_t line) const;
  [[nodiscard]] std::size_t end_of(std::size_t line) const;

 private:
  /// A place in a long line, so that nobody counts from its beginning each time.
  struct Mark {
    std::uint32_t offset;
    std::uint32_t units; // of UTF-16, from where the line begins
  };
  [[nodiscard]] Mark mark_before(std::size_t line, std::size_t offset) const;

  std::string_view text_;
  std::vector<std::uint32_t> starts_;
  std::vector<Mark> marks_;
};

/// How many bytes the character at `at` has; an unsound byte is one by itself.
std::size_t character_size(std::string_view text, std::size_t at);

} // namespace norma::server
