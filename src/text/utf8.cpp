#include "text/utf8.hpp"

#include <utf8proc.h>

#include <cstdint>
#include <cstdlib>
#include <cstring>

namespace norma::text {
namespace {

struct Decoded {
  std::uint32_t code = 0; // of unsound bytes the first byte
  std::size_t length = 1;
  bool sound = false;
};

Decoded decode(std::string_view s) {
  const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(s.data());
  if (bytes[0] < 0x80) return {bytes[0], 1, true};
  utf8proc_int32_t code = 0;
  const utf8proc_ssize_t length =
      utf8proc_iterate(bytes, static_cast<utf8proc_ssize_t>(s.size()), &code);
  if (length < 1) return {bytes[0], 1, false};
  return {static_cast<std::uint32_t>(code), static_cast<std::size_t>(length), true};
}

/// How many of the first bytes are ASCII but not NUL; looks at eight at a time.
std::size_t plain_length(std::string_view s) {
  constexpr std::uint64_t ones = 0x0101010101010101u;
  std::size_t i = 0;
  for (std::uint64_t eight = 0; i + sizeof eight <= s.size(); i += sizeof eight) {
    std::memcpy(&eight, s.data() + i, sizeof eight);
    // A high bit is set in the byte itself, or by taking one from a NUL.
    if (((eight | (eight - ones)) & (ones << 7)) != 0) break;
  }
  while (i < s.size() && s[i] > 0)
    ++i;
  return i;
}

bool acts_on_terminal(std::uint32_t c) {
  return c < 0x20 || (c >= 0x7f && c < 0xa0) || c == 0xfeff || (c >= 0x200b && c <= 0x200f) ||
         (c >= 0x2028 && c <= 0x202e) || (c >= 0x2060 && c <= 0x2069) ||
         (c >= 0xe0000 && c <= 0xe007f);
}

void append_hex(std::string& out, char letter, std::uint32_t code) {
  static constexpr char digits[] = "0123456789abcdef";
  std::string hex;
  do {
    hex.insert(hex.begin(), digits[code & 0xfu]);
    code >>= 4;
  } while (code != 0);
  if (hex.size() < 2) hex.insert(hex.begin(), '0');
  out += '\\';
  out += letter;
  out += '{';
  out += hex;
  out += '}';
}

} // namespace

bool starts_with_bom(std::string_view bytes) { return bytes.substr(0, 3) == "\xef\xbb\xbf"; }

std::optional<std::size_t> first_unsound_byte(std::string_view bytes) {
  std::size_t i = plain_length(bytes);
  while (i < bytes.size()) {
    const Decoded d = decode(bytes.substr(i));
    if (!d.sound || d.code == 0) return i;
    i += d.length;
    i += plain_length(bytes.substr(i));
  }
  return std::nullopt;
}

std::string_view cut(std::string_view bytes, std::size_t most) {
  if (bytes.size() <= most) return bytes;
  while (most > 0 && (static_cast<unsigned char>(bytes[most]) & 0xc0u) == 0x80u)
    --most;
  return bytes.substr(0, most);
}

std::size_t count_characters(std::string_view bytes) {
  std::size_t n = 0;
  for (std::size_t i = 0; i < bytes.size(); ++n)
    i += decode(bytes.substr(i)).length;
  return n;
}

std::string printable(std::string_view bytes, bool keep_lines) {
  std::string out;
  out.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size();) {
    const Decoded d = decode(bytes.substr(i));
    if (!d.sound) {
      append_hex(out, 'x', d.code);
    } else if (d.code == '\t') {
      out += ' ';
    } else if (d.code == '\n' && keep_lines) {
      out += '\n';
    } else if (acts_on_terminal(d.code)) {
      append_hex(out, 'u', d.code);
    } else {
      out += bytes.substr(i, d.length);
    }
    i += d.length;
  }
  return out;
}

std::string printable_json(std::string_view json) {
  // Outside of strings JSON is plain ASCII, so what is found here stands in one; all below U+0020
  // has been escaped by who wrote it. Behind the first plane JSON takes two escapes.
  std::string out;
  out.reserve(json.size());
  const auto escape = [&](std::uint32_t unit) {
    constexpr std::string_view digits = "0123456789abcdef";
    out += "\\u";
    for (int shift = 12; shift >= 0; shift -= 4)
      out += digits[(unit >> shift) & 0xfu];
  };
  for (std::size_t i = 0; i < json.size();) {
    const Decoded d = decode(json.substr(i));
    const bool layout = d.code == '\n' || d.code == '\t';
    if (d.sound && !layout && acts_on_terminal(d.code)) {
      constexpr std::uint32_t second_plane = 0x10000;
      if (d.code < second_plane) {
        escape(d.code);
      } else {
        escape(0xd800u + ((d.code - second_plane) >> 10));
        escape(0xdc00u + ((d.code - second_plane) & 0x3ffu));
      }
    } else {
      out += json.substr(i, d.length);
    }
    i += d.length;
  }
  return out;
}

std::size_t display_width(std::string_view bytes) {
  std::size_t n = 0;
  for (std::size_t i = 0; i < bytes.size();) {
    const Decoded d = decode(bytes.substr(i));
    const bool known = d.sound && d.code >= 0x80;
    n += known ? static_cast<std::size_t>(utf8proc_charwidth(static_cast<int>(d.code))) : 1;
    i += d.length;
  }
  return n;
}

std::string normal_form(std::string_view bytes) {
  utf8proc_uint8_t* made = nullptr;
  const utf8proc_ssize_t size =
      utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(bytes.data()),
                   static_cast<utf8proc_ssize_t>(bytes.size()), &made,
                   static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE));
  if (size < 0) return std::string(bytes);
  std::string out(reinterpret_cast<const char*>(made), static_cast<std::size_t>(size));
  std::free(made);
  return out;
}

} // namespace norma::text
