#include "server/uri.hpp"

#include <fmt/core.h>

#include <filesystem>

namespace norma::server {
namespace {

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

bool stands_as_it_is(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '/' ||
         c == '-' || c == '.' || c == '_' || c == '~';
}

} // namespace

std::optional<std::string> path_of(std::string_view uri) {
  constexpr std::string_view scheme = "file://";
  constexpr std::string_view host = "localhost";
  if (!uri.starts_with(scheme) || uri.size() > longest_uri) return std::nullopt;
  uri.remove_prefix(scheme.size());
  if (uri.starts_with(host)) uri.remove_prefix(host.size());
  if (!uri.starts_with('/')) return std::nullopt;
  std::string out;
  for (std::size_t i = 0; i < uri.size(); ++i) {
    char c = uri[i];
    if (c == '%') {
      if (i + 2 >= uri.size()) return std::nullopt;
      const int high = digit(uri[i + 1]);
      const int low = digit(uri[i + 2]);
      if (high < 0 || low < 0) return std::nullopt;
      c = static_cast<char>(high * 16 + low);
      i += 2;
    }
    if (c == '\0') return std::nullopt;
    out += c;
  }
  return std::filesystem::path(out).lexically_normal().string();
}

std::string uri_of(std::string_view path) {
  std::string out = "file://";
  for (const char c : path) {
    if (stands_as_it_is(c))
      out += c;
    else
      out += fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
  }
  return out;
}

} // namespace norma::server
