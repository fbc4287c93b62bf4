// A file for a browser that needs nothing beside itself.
#pragma once

#include <string>
#include <string_view>

#include "wording/wording.hpp"

namespace norma::emit {

struct HtmlFile {
  std::string_view title; // not yet escaped
  std::string_view style;
  std::string body; // elements
  std::string_view script;
};
/// By its own policy it asks for nothing, and runs its own script alone.
std::string html_file(const HtmlFile& file, const wording::Language& in);

} // namespace norma::emit
