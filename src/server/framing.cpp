#include "server/framing.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <optional>

#include "text/digits.hpp"

namespace norma::server {
namespace {

constexpr std::string_view blank_line = "\r\n\r\n";

bool same_letters(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
  return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(),
                                            [&](char x, char y) { return lower(x) == lower(y); });
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
    text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
    text.remove_suffix(1);
  return text;
}

/// A length as digits; nothing where it is none, or one that no stream could hold.
std::optional<std::size_t> length_in(std::string_view digits) {
  constexpr std::size_t most_digits = 15;
  return text::whole_number(digits, most_digits);
}

/// The length that a header gives; nothing where it gives none, or two.
std::optional<std::size_t> length_of(std::string_view header) {
  std::optional<std::size_t> out;
  while (!header.empty()) {
    const std::size_t stop = std::min(header.find("\r\n"), header.size());
    const std::string_view line = header.substr(0, stop);
    header.remove_prefix(std::min(stop + 2, header.size()));
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos) return std::nullopt;
    if (!same_letters(trimmed(line.substr(0, colon)), "Content-Length")) continue;
    const auto length = length_in(trimmed(line.substr(colon + 1)));
    if (!length || (out && out != length)) return std::nullopt;
    out = length;
  }
  return out;
}

} // namespace

bool FrameReader::fill() {
  constexpr std::size_t piece = 65536;
  room_.erase(0, at_);
  at_ = 0;
  const std::size_t had = room_.size();
  room_.resize(had + piece);
  const std::size_t got = std::min(wire_.read(room_.data() + had, piece), piece);
  room_.resize(had + got);
  return got > 0;
}

FrameReader::Header FrameReader::header(std::string& into) {
  while (true) {
    const std::string_view rest = std::string_view(room_).substr(at_);
    const std::size_t stop = rest.substr(0, longest_header).find(blank_line);
    if (stop != std::string_view::npos) {
      into = rest.substr(0, stop);
      at_ += stop + blank_line.size();
      return Header::whole;
    }
    if (rest.size() >= longest_header) return Header::too_long;
    if (!fill()) return Header::ended;
  }
}

bool FrameReader::skip(std::size_t bytes) {
  while (true) {
    const std::size_t here = std::min(bytes, room_.size() - at_);
    at_ += here;
    bytes -= here;
    if (bytes == 0) return true;
    if (!fill()) return false;
  }
}

Frame FrameReader::next() {
  std::string head;
  const Header found = header(head);
  if (found == Header::ended) return Ended{};
  if (found == Header::too_long) return Ended{true};
  const auto length = length_of(head);
  if (!length) return Broken::header;
  if (*length > longest_body) return skip(*length) ? Frame(Broken::too_long) : Frame(Ended{});
  // It takes room as it arrives: a length alone costs nothing.
  while (room_.size() - at_ < *length) {
    if (!fill()) return Ended{};
  }
  std::string body = room_.substr(at_, *length);
  at_ += *length;
  if (at_ == room_.size()) {
    room_.clear();
    at_ = 0;
    room_.shrink_to_fit();
  }
  return body;
}

bool is_bounded(std::string_view json) {
  std::size_t values = 1;
  std::size_t depth = 0;
  bool in_text = false;
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (in_text) {
      if (c == '\\')
        ++i;
      else if (c == '"')
        in_text = false;
      continue;
    }
    if (c == '"') in_text = true;
    if (c == '[' || c == '{') {
      ++values;
      if (++depth > deepest_value) return false;
    }
    if ((c == ']' || c == '}') && depth > 0) --depth;
    if (c == ',') ++values;
    if (values > most_values) return false;
  }
  return true;
}

std::string framed(std::string_view body) {
  return fmt::format("Content-Length: {}\r\n\r\n{}", body.size(), body);
}

} // namespace norma::server
