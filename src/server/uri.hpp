// Files as editors name them: file:///home/lane/five.norma (RFC 3986, RFC 8089).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace norma::server {

/// No address and no path of an editor is longer.
inline constexpr std::size_t longest_uri = 12288;

/// The absolute path of a `file:` address; nothing for any other, and for one with a host, with a
/// NUL in it, or that is too long.
std::optional<std::string> path_of(std::string_view uri);
/// The address of an absolute path.
std::string uri_of(std::string_view path);

} // namespace norma::server
