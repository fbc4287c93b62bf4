#include <fmt/core.h>

#include "drawing/svg.hpp"
#include "emit/document_pages.hpp"
#include "emit/frame_words.hpp"
#include "emit/html.hpp"
#include "emit/page_parts.hpp"

namespace norma::emit {
namespace {

using drawing::escaped;

class Html {
 public:
  explicit Html(const wording::Language& in) : in_(in) {}

  std::string build(const std::vector<Document>& documents) {
    for (const Document& document : documents)
      sheet(document);
    const std::string title = documents.empty() ? std::string() : title_of(documents.front());
    return html_file({title, sheet_style, bar() + "<main>\n" + out_ + "</main>\n", sheet_script},
                     in_);
  }

  std::string elements(const Document& document) {
    for (const Block& block : document)
      one(block);
    return std::move(out_);
  }

 private:
  [[nodiscard]] std::string text(const diag::Said& what) const { return escaped(in_.text(what)); }

  [[nodiscard]] std::string bar() const {
    return fmt::format("<nav aria-label=\"{0}\"><button id=\"save\">{0}</button>"
                       "<label class=\"open\">{1}<input id=\"open\" type=\"file\" "
                       "accept=\"application/json,.json\"></label>"
                       "<p id=\"told\" role=\"status\" data-other=\"{2}\"></p></nav>\n",
                       text(frame::filled_save()), text(frame::filled_open()),
                       text(frame::filled_other()));
  }

  void sheet(const Document& document) {
    bool in_section = false;
    for (const Block& block : document) {
      if (block.kind == BlockKind::title || block.kind == BlockKind::sheet) {
        if (in_section) out_ += "</section>\n";
        in_section = true;
        out_ += "<section>\n";
      }
      one(block);
    }
    if (in_section) out_ += "</section>\n";
  }

  void one(const Block& block) {
    const std::string plain = escaped(block.text);
    switch (block.kind) {
    case BlockKind::title:
    case BlockKind::sheet: out_ += fmt::format("<h1>{}</h1>\n", plain); break;
    case BlockKind::heading: out_ += fmt::format("<h2>{}</h2>\n", plain); break;
    case BlockKind::subheading: out_ += fmt::format("<h3>{}</h3>\n", plain); break;
    case BlockKind::paragraph: out_ += fmt::format("<p>{}</p>\n", plain); break;
    case BlockKind::bullet: out_ += fmt::format("<p class=\"item\">{}</p>\n", plain); break;
    case BlockKind::under: out_ += fmt::format("<p class=\"under\">{}</p>\n", plain); break;
    case BlockKind::tick:
      out_ += "<p class=\"tick\">";
      field({block.text, true, false});
      out_ += "</p>\n";
      break;
    case BlockKind::blank:
      out_ += "<p class=\"fields\">";
      field({block.text, false, true});
      out_ += "</p>\n";
      break;
    case BlockKind::fields:
      out_ += "<p class=\"fields\">";
      if (!plain.empty()) out_ += fmt::format("<span>{}:</span> ", plain);
      for (const Field& f : block.fields)
        field(f);
      out_ += "</p>\n";
      break;
    }
  }

  /// A box and a line, each with the label that it is known by.
  void field(const Field& f) {
    const std::string label = escaped(f.text);
    if (f.box)
      out_ += fmt::format("<label><input type=\"checkbox\" data-label=\"{0}\">{0}</label> ", label);
    if (f.line && f.box)
      out_ += fmt::format("<input type=\"text\" data-label=\"{0}\" aria-label=\"{0}\"> ", label);
    if (f.line && !f.box)
      out_ += fmt::format("<label class=\"line\">{0}: <input type=\"text\" data-label=\"{0}\">"
                          "</label> ",
                          label);
    if (!f.line && !f.box) out_ += fmt::format("<span>{}</span> ", label);
  }

  const wording::Language& in_;
  std::string out_;
};

} // namespace

std::string elements_of(const Document& document, const wording::Language& in) {
  return Html(in).elements(document);
}

std::string as_html(const std::vector<Document>& documents, const wording::Language& in) {
  return Html(in).build(documents);
}

} // namespace norma::emit
