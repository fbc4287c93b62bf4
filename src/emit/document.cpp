#include "emit/document.hpp"

#include <fmt/core.h>

#include "text/utf8.hpp"

namespace norma::emit {
namespace {

constexpr std::size_t page_width = 88;
constexpr std::string_view writing_line = "______________________________";
constexpr std::string_view markdown_line = "\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_";

/// Markdown gives meaning to these; a backslash takes it away.
std::string markdown_escaped(std::string_view plain) {
  const std::string printable = text::printable(plain);
  std::string out;
  out.reserve(printable.size());
  for (std::size_t i = 0; i < printable.size(); ++i) {
    const char c = printable[i];
    // So do names behind an @, and addresses, to those who make links of them.
    const std::string_view rest = std::string_view(printable).substr(i);
    const bool address =
        rest.starts_with("://") || (c == '.' && i >= 3 && printable.compare(i - 3, 3, "www") == 0);
    const bool special =
        address || std::string_view("\\`*_{}[]<>#|~&!@").find(c) != std::string_view::npos;
    // Lists and rules start lines only.
    const bool starts_list = i == 0 && (c == '-' || c == '+' || c == '=');
    if (special || starts_list) out += '\\';
    out += c;
  }
  return out;
}

void underline(std::string& out, std::string_view title, char with) {
  out += title;
  out += '\n';
  out += std::string(text::display_width(title), with);
  out += "\n\n";
}

bool is_line(BlockKind kind) {
  return kind == BlockKind::bullet || kind == BlockKind::under || kind == BlockKind::tick ||
         kind == BlockKind::blank || kind == BlockKind::fields;
}

constexpr std::string_view box = "[ ] ";

/// Places to write on share what room is left in the line; where none is, the line is broken.
std::string fields_text(const Block& block) {
  constexpr std::size_t least = 8;
  constexpr std::string_view gap = "  ";
  const std::string head = block.text.empty() ? "" : text::printable(block.text) + ": ";
  std::vector<std::string> labels;
  std::size_t taken = gap.size() + text::display_width(head);
  std::size_t lines = 0;
  for (const Field& f : block.fields) {
    labels.push_back((f.box ? std::string(box) : "") + text::printable(f.text) +
                     (f.line ? ": " : ""));
    taken += text::display_width(labels.back()) + (labels.size() > 1 ? gap.size() : 0);
    lines += f.line ? 1 : 0;
  }
  const std::size_t left = page_width > taken ? page_width - taken : 0;
  const std::size_t each = lines == 0 ? 0 : std::max(least, left / lines);
  std::string out(gap);
  out += head;
  std::size_t column = text::display_width(out);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const std::string one = labels[i] + std::string(block.fields[i].line ? each : 0, '_');
    const std::size_t width = text::display_width(one);
    if (i > 0 && column + gap.size() + width > page_width) {
      out += "\n      ";
      column = 6;
    } else if (i > 0) {
      out += gap;
      column += gap.size();
    }
    out += one;
    column += width;
  }
  return out + "\n";
}

std::string blanks_for(const std::string& text, std::size_t width) {
  const std::size_t has = text::display_width(text);
  return std::string(width > has ? width - has : 0, ' ');
}

} // namespace

std::string padded(const std::string& text, std::size_t width) {
  return text + blanks_for(text, width);
}
std::string padded_left(const std::string& text, std::size_t width) {
  return blanks_for(text, width) + text;
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
  std::string out;
  std::size_t column = 0;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t stop = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, stop - at);
    const std::size_t length = text::display_width(word);
    if (column > 0 && column + 1 + length > width) {
      out += '\n';
      out += std::string(indent, ' ');
      column = indent;
    } else if (at > 0) {
      out += ' ';
      ++column;
    }
    out += word;
    column += length;
    at = stop + 1;
  }
  return out;
}

std::string as_text(const Document& document) {
  std::string out;
  for (std::size_t i = 0; i < document.size(); ++i) {
    const Block& block = document[i];
    const std::string text = text::printable(block.text);
    const bool gap = i > 0 && is_line(document[i - 1].kind) && !is_line(block.kind);
    if (gap) out += '\n';
    switch (block.kind) {
    case BlockKind::title: underline(out, text, '='); break;
    case BlockKind::heading: underline(out, text, '-'); break;
    case BlockKind::subheading:
      out += text + "\n";
      if (i + 1 == document.size() || !is_line(document[i + 1].kind)) out += '\n';
      break;
    case BlockKind::sheet:
      out += std::string(page_width, '-') + "\n\n";
      underline(out, text, '=');
      break;
    case BlockKind::paragraph: out += wrapped(text, page_width, 0) + "\n\n"; break;
    case BlockKind::bullet: out += wrapped("  - " + text, page_width, 4) + "\n"; break;
    case BlockKind::under: out += wrapped("      " + text, page_width, 8) + "\n"; break;
    case BlockKind::tick: out += wrapped("  [ ] " + text, page_width, 6) + "\n"; break;
    case BlockKind::blank: out += fmt::format("  {}: {}\n", text, writing_line); break;
    case BlockKind::fields: out += fields_text(block); break;
    }
  }
  return out;
}

std::string as_markdown(const Document& document) {
  std::string out;
  for (std::size_t i = 0; i < document.size(); ++i) {
    const Block& block = document[i];
    const std::string text = markdown_escaped(block.text);
    if (i > 0 && is_line(document[i - 1].kind) && !is_line(block.kind)) out += '\n';
    switch (block.kind) {
    case BlockKind::title: out += "# " + text + "\n\n"; break;
    case BlockKind::heading: out += "## " + text + "\n\n"; break;
    case BlockKind::subheading: out += "### " + text + "\n\n"; break;
    case BlockKind::sheet: out += "---\n\n# " + text + "\n\n"; break;
    case BlockKind::paragraph: out += text + "\n\n"; break;
    case BlockKind::bullet: out += "- " + text + "\n"; break;
    case BlockKind::under: out += "  - " + text + "\n"; break;
    case BlockKind::tick: out += "- [ ] " + text + "\n"; break;
    case BlockKind::blank: out += fmt::format("- {}: {}\n", text, markdown_line); break;
    case BlockKind::fields:
      for (const Field& f : block.fields) {
        out +=
            fmt::format("- {}{}{}{}\n", f.box ? box : "", text.empty() ? "" : text + ": ",
                        markdown_escaped(f.text), f.line ? fmt::format(": {}", markdown_line) : "");
      }
      break;
    }
  }
  return out;
}

} // namespace norma::emit
