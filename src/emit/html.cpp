#include "emit/html.hpp"

#include <fmt/core.h>

#include "drawing/svg.hpp"

namespace norma::emit {

std::string html_file(const HtmlFile& file, const wording::Language& in) {
  return fmt::format(
      "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
      "style-src 'unsafe-inline'; script-src 'unsafe-inline'\">\n"
      "<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n{}<script>\n{}</script>\n"
      "</body>\n</html>\n",
      in.tag(), drawing::escaped(file.title), file.style, file.body, file.script);
}

} // namespace norma::emit
