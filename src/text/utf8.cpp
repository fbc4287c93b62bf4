#include "text/utf8.hpp"

#include <utf8proc.h>

#include <cstdlib>

#include <cstdint>

namespace norma::text {
namespace {

struct Decoded {
  std::uint32_t code = 0;
  std::size_t length = 1;
  bool sound = false;
};

Decoded decode(std::string_view s) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(s[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return {lead, 1, true};
  std::size_t length = 0;
  std::uint32_t code = 0;
  std::uint32_t least = 0;
  if ((lead & 0xe0u) == 0xc0u) {
    length = 2, code = lead & 0x1fu, least = 0x80;
  } else if ((lead & 0xf0u) == 0xe0u) {
    length = 3, code = lead & 0x0fu, least = 0x800;
  } else if ((lead & 0xf8u) == 0xf0u) {
    length = 4, code = lead & 0x07u, least = 0x10000;
  } else {
    return {lead, 1, false};
  }
  if (s.size() < length) return {lead, 1, false};
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0u) != 0x80u) return {lead, 1, false};
    code = (code << 6) | (byte(i) & 0x3fu);
  }
  const bool surrogate = code >= 0xd800 && code <= 0xdfff;
  if (code < least || code > 0x10ffff || surrogate) return {lead, 1, false};
  return {code, length, true};
}

bool acts_on_terminal(std::uint32_t c) {
  return c < 0x20 || (c >= 0x7f && c < 0xa0) || c == 0xfeff || (c >= 0x200b && c <= 0x200f) ||
         (c >= 0x2028 && c <= 0x202e) || (c >= 0x2060 && c <= 0x2069) ||
         (c >= 0xe0000 && c <= 0xe007f);
}

bool combines(std::uint32_t c) {
  return (c >= 0x300 && c <= 0x36f) || (c >= 0x1ab0 && c <= 0x1aff) ||
         (c >= 0x20d0 && c <= 0x20ff) || (c >= 0xfe00 && c <= 0xfe0f);
}

bool wide(std::uint32_t c) {
  return (c >= 0x1100 && c <= 0x115f) || (c >= 0x2e80 && c <= 0xa4cf) ||
         (c >= 0xac00 && c <= 0xd7a3) || (c >= 0xf900 && c <= 0xfaff) ||
         (c >= 0xfe30 && c <= 0xfe6f) || (c >= 0xff00 && c <= 0xff60) ||
         (c >= 0x1f300 && c <= 0x1faff) || (c >= 0x20000 && c <= 0x3fffd);
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
  std::size_t i = 0;
  while (i < bytes.size()) {
    const auto lead = static_cast<unsigned char>(bytes[i]);
    if (lead != 0 && lead < 0x80) {
      ++i;
      continue;
    }
    const Decoded d = decode(bytes.substr(i));
    if (!d.sound || d.code == 0) return i;
    i += d.length;
  }
  return std::nullopt;
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
  // has been escaped by who wrote it. What acts on a terminal lies in the first plane.
  std::string out;
  out.reserve(json.size());
  for (std::size_t i = 0; i < json.size();) {
    const Decoded d = decode(json.substr(i));
    const bool layout = d.code == '\n' || d.code == '\t';
    if (d.sound && !layout && acts_on_terminal(d.code)) {
      constexpr std::string_view digits = "0123456789abcdef";
      out += "\\u";
      for (int shift = 12; shift >= 0; shift -= 4)
        out += digits[(static_cast<std::uint32_t>(d.code) >> shift) & 0xfu];
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
    if (!combines(d.code)) n += wide(d.code) ? 2 : 1;
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
