// Plan files: written and read.
#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "planfile/document.hpp"

namespace norma::planfile {

/// JSON, indented by two, a new line at its end; numbers with at most six decimals. Bytes that are
/// not UTF-8 become U+FFFD; nothing in it can act on a terminal.
std::string write(const Document& document);

/// What a file may be at most. A thousand plans of five views have 60 MB.
inline constexpr std::size_t most_bytes = 256u << 20u;
inline constexpr std::size_t most_values = 10'000'000;
inline constexpr std::size_t deepest = 40;

/// Why a file cannot be read: the place in it (RFC 6901, "" for all of it), and what is wrong
/// there.
struct ReadError {
  std::string pointer;
  std::string why;
};

/// The document of a text that anybody may have written: every key is there and none besides, every
/// id is in its list, every number fits, every place in a list leads somewhere.
std::variant<Document, ReadError> read(std::string_view json);

} // namespace norma::planfile
