// Files as editors name them: file:///home/lane/five.norma (RFC 3986, RFC 8089).
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace norma::server {

/// The absolute path of a `file:` address; nothing for any other, and for one with a host, or with
/// a NUL in it.
std::optional<std::string> path_of(std::string_view uri);
/// The address of an absolute path.
std::string uri_of(std::string_view path);

} // namespace norma::server
