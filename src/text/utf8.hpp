// UTF-8: is it sound, how long is it, and how is it shown without harm.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace norma::text {

/// True where `bytes` start with the UTF-8 byte order mark.
bool starts_with_bom(std::string_view bytes);

/// Offset of the first byte that is not UTF-8 (overlong forms and surrogates are not), or that is
/// NUL; nothing where all is sound.
std::optional<std::size_t> first_unsound_byte(std::string_view bytes);

/// `bytes` in Unicode's normal form C: an e with its accent beside it becomes one character. Bytes
/// that are not UTF-8 are given back as they are.
std::string normal_form(std::string_view bytes);

/// Characters (code points) in `bytes`; an unsound byte counts as one.
std::size_t count_characters(std::string_view bytes);

/// As many whole characters from its beginning as fit into so many bytes of sound UTF-8.
std::string_view cut(std::string_view bytes, std::size_t most);

/// `bytes` with all that could act on a terminal or hide text written out as `\u{..}`: controls
/// (tab becomes one blank), directional overrides, unsound bytes (`\x{..}`). A new line stays only
/// where `keep_lines` says so.
std::string printable(std::string_view bytes, bool keep_lines = false);

/// JSON whose strings hold no character that a terminal acts on: such a one is written as \uXXXX.
std::string printable_json(std::string_view json);

/// How many columns a terminal gives to `bytes`, by the Unicode tables of utf8proc: none for
/// combining marks, two for wide East Asian characters and pictures. Controls of ASCII and unsound
/// bytes count as one.
std::size_t display_width(std::string_view bytes);

} // namespace norma::text
