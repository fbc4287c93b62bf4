#include "text/source.hpp"

#include <algorithm>

#include "text/utf8.hpp"

namespace norma::text {

Span join(Span a, Span b) { return {a.file, std::min(a.begin, b.begin), std::max(a.end, b.end)}; }

Source::Source(std::string name, std::string bytes)
    : name_(std::move(name)), bytes_(std::move(bytes)) {}

std::string_view Source::text(Span span) const {
  const auto begin = std::min<std::size_t>(span.begin, bytes_.size());
  const auto end = std::clamp<std::size_t>(span.end, begin, bytes_.size());
  return std::string_view(bytes_).substr(begin, end - begin);
}

std::size_t Source::line_index(std::uint32_t offset) const {
  std::call_once(lines_found_, [this] {
    line_starts_.push_back(starts_with_bom(bytes_) ? 3 : 0);
    for (std::size_t i = bytes_.find('\n'); i != std::string::npos; i = bytes_.find('\n', i + 1)) {
      line_starts_.push_back(static_cast<std::uint32_t>(i + 1));
    }
  });
  const auto next = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  return next == line_starts_.begin() ? 0
                                      : static_cast<std::size_t>(next - line_starts_.begin()) - 1;
}

std::uint32_t Source::line_begin(std::uint32_t offset) const {
  return line_starts_[line_index(offset)];
}

Place Source::place(std::uint32_t offset) const {
  offset = std::min(offset, static_cast<std::uint32_t>(bytes_.size()));
  const std::size_t line = line_index(offset);
  const std::uint32_t begin = line_starts_[line];
  const std::uint32_t width = offset > begin ? offset - begin : 0;
  const std::size_t column = count_characters(std::string_view(bytes_).substr(begin, width));
  return {static_cast<std::uint32_t>(line + 1), static_cast<std::uint32_t>(column + 1)};
}

std::string_view Source::line_at(std::uint32_t offset) const {
  const std::size_t line = line_index(offset);
  const std::size_t begin = line_starts_[line];
  std::size_t end = line + 1 < line_starts_.size() ? line_starts_[line + 1] - 1 : bytes_.size();
  if (end > begin && end <= bytes_.size() && bytes_[end - 1] == '\r') --end;
  return std::string_view(bytes_).substr(begin, end - begin);
}

FileId Sources::add(std::string name, std::string bytes) {
  files_.push_back(std::make_shared<const Source>(std::move(name), std::move(bytes)));
  return static_cast<FileId>(files_.size() - 1);
}

FileId Sources::share(std::shared_ptr<const Source> source) {
  files_.push_back(std::move(source));
  return static_cast<FileId>(files_.size() - 1);
}

const Source& Sources::operator[](FileId id) const { return *files_[static_cast<std::size_t>(id)]; }

} // namespace norma::text
