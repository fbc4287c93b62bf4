#include "server/position.hpp"

#include <algorithm>

#include "text/utf8.hpp"

namespace norma::server {
namespace {

/// Units of UTF-16 of a character of so many bytes: those outside of the basic plane take four
/// bytes, and two units.
std::uint32_t units_of(std::size_t bytes) { return bytes == 4 ? 2 : 1; }

} // namespace

std::size_t character_size(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  const std::size_t size = first >= 0xf0 && first < 0xf8   ? 4
                           : first >= 0xe0 && first < 0xf0 ? 3
                           : first >= 0xc0 && first < 0xe0 ? 2
                                                           : 1;
  if (at + size > text.size()) return 1;
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(at + i) & 0xc0u) != 0x80u) return 1;
  }
  return size;
}

Lines::Lines(std::string_view text, bool hidden_mark) : text_(text) {
  constexpr std::uint32_t byte_order_mark = 3;
  constexpr std::uint32_t between_marks = 1024;
  std::size_t i = hidden_mark && text::starts_with_bom(text) ? byte_order_mark : 0;
  starts_.push_back(static_cast<std::uint32_t>(i));
  Mark last{starts_.front(), 0};
  std::uint32_t units = 0;
  while (i < text.size()) {
    if (text[i] == '\n' || text[i] == '\r') {
      if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') ++i;
      starts_.push_back(static_cast<std::uint32_t>(++i));
      last = {starts_.back(), 0};
      units = 0;
      continue;
    }
    if (i >= last.offset + between_marks) {
      last = {static_cast<std::uint32_t>(i), units};
      marks_.push_back(last);
    }
    const std::size_t size = character_size(text, i);
    units += units_of(size);
    i += size;
  }
}

Lines::Mark Lines::mark_before(std::size_t line, std::size_t offset) const {
  const auto above =
      std::upper_bound(marks_.begin(), marks_.end(), offset,
                       [](std::size_t value, const Mark& mark) { return value < mark.offset; });
  const Mark start{starts_[line], 0};
  if (above == marks_.begin()) return start;
  const Mark& found = *std::prev(above);
  return found.offset < start.offset ? start : found;
}

std::size_t Lines::begin_of(std::size_t line) const {
  return line < starts_.size() ? starts_[line] : text_.size();
}

std::size_t Lines::end_of(std::size_t line) const {
  if (line + 1 >= starts_.size()) return text_.size();
  std::size_t end = starts_[line + 1] - 1;
  if (end > starts_[line] && text_[end] == '\n' && text_[end - 1] == '\r') --end;
  return end;
}

Position Lines::at(std::size_t offset, Encoding in) const {
  offset = std::clamp<std::size_t>(offset, starts_.front(), text_.size());
  const auto above = std::upper_bound(starts_.begin(), starts_.end(), offset);
  const auto line = static_cast<std::size_t>(above - starts_.begin()) - 1;
  const Mark mark = mark_before(line, offset);
  std::size_t i = mark.offset;
  std::uint32_t units = in == Encoding::utf8 ? mark.offset - starts_[line] : mark.units;
  while (i < offset) {
    const std::size_t size = character_size(text_, i);
    if (i + size > offset) break;
    units += in == Encoding::utf8 ? static_cast<std::uint32_t>(size) : units_of(size);
    i += size;
  }
  return {static_cast<std::uint32_t>(line), units};
}

std::size_t Lines::offset(Position at, Encoding in) const {
  if (at.line >= starts_.size()) return text_.size();
  std::size_t i = begin_of(at.line);
  const std::size_t end = end_of(at.line);
  std::uint32_t left = at.character;
  while (i < end) {
    const std::size_t size = character_size(text_, i);
    const std::uint32_t units =
        in == Encoding::utf8 ? static_cast<std::uint32_t>(size) : units_of(size);
    if (units > left) break;
    left -= units;
    i += size;
  }
  return i;
}

} // namespace norma::server
