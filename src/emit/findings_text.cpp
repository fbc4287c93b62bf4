#include "emit/findings_text.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "emit/document.hpp"
#include "emit/frame_words.hpp"
#include "emit/subject_words.hpp"
#include "text/utf8.hpp"

namespace norma::emit {
namespace {

/// Room for the number of the line, the bar and the dots where it is cut.
constexpr std::size_t beside_excerpt = 16;

std::size_t excerpt_width(const Screen& screen) {
  constexpr std::size_t widest = 100;
  constexpr std::size_t least = 20;
  if (screen.columns == 0) return widest;
  return std::clamp(screen.columns - std::min(screen.columns, beside_excerpt), least, widest);
}

/// Colours of a terminal, each with its end.
enum class Paint { none, error, warning, advice };

Paint paint_of(diag::Severity severity) {
  switch (severity) {
  case diag::Severity::error: return Paint::error;
  case diag::Severity::warning: return Paint::warning;
  case diag::Severity::advice: return Paint::advice;
  }
  return Paint::none;
}

std::string painted(std::string text, Paint paint, const Screen& screen) {
  if (!screen.colour || paint == Paint::none) return text;
  const std::string_view with = paint == Paint::error     ? "1;31"
                                : paint == Paint::warning ? "1;33"
                                                          : "1;36";
  return fmt::format("\033[{}m{}\033[0m", with, text);
}

/// The line of `span` with carets below; a long line is cut around the place.
void append_excerpt(std::string& out, const text::Source& source, text::Span span,
                    std::string_view beside, Paint paint, const Screen& screen) {
  const std::size_t widest_excerpt = excerpt_width(screen);
  const std::string_view line = source.line_at(span.begin);
  const std::size_t line_begin = source.line_begin(span.begin);
  std::size_t from = span.begin > line_begin ? span.begin - line_begin : 0;
  from = std::min(from, line.size());
  std::size_t to = span.end > line_begin ? span.end - line_begin : from;
  to = std::clamp(to, from, line.size());

  // Cuts stand on character boundaries: step back over UTF-8's continuation bytes.
  const auto boundary = [&](std::size_t i) {
    while (i > 0 && i < line.size() && (static_cast<unsigned char>(line[i]) & 0xc0u) == 0x80u)
      --i;
    return i;
  };
  std::size_t begin = 0;
  std::size_t end = line.size();
  if (line.size() > widest_excerpt) {
    begin = boundary(from > widest_excerpt / 2 ? from - widest_excerpt / 2 : 0);
    end = boundary(std::min(line.size(), begin + widest_excerpt));
    to = std::max(from, std::min(to, end));
  }
  const std::string before = text::printable(line.substr(begin, from - begin));
  const std::string marked = text::printable(line.substr(from, to - from));
  const std::string after = text::printable(line.substr(to, std::max(end, to) - to));
  const std::string number = std::to_string(source.place(span.begin).line);
  const std::string left = begin > 0 ? "..." : "";
  const std::string right = end < line.size() ? "..." : "";

  out += fmt::format("  {} | {}{}{}{}{}\n", number, left, before, marked, after, right);
  const std::size_t indent = left.size() + text::display_width(before);
  const std::size_t carets = std::max<std::size_t>(1, text::display_width(marked));
  out += fmt::format("  {} | {}{}", std::string(number.size(), ' '), std::string(indent, ' '),
                     painted(std::string(carets, '^'), paint, screen));
  if (!beside.empty()) out += fmt::format(" {}", text::printable(beside));
  out += '\n';
}

std::string place_text(const text::Sources& sources, text::Span span) {
  const text::Source& source = sources[span.file];
  const text::Place place = source.place(span.begin);
  return fmt::format("{}:{}:{}", text::printable(source.name()), place.line, place.column);
}

/// `warning`, or `accepted warning`.
std::string severity_text(const diag::Diagnostic& d, const wording::Language& in) {
  const diag::Said severity = severity_said(d.severity);
  return in.text(d.accepted.empty() ? severity : frame::accepted(severity));
}

void append_finding(std::string& out, const diag::Diagnostic& d, const report::Report& report,
                    const wording::Language& in, const Screen& screen) {
  const text::Sources& sources = report.sources;
  const std::string place = d.span.known() ? place_text(sources, d.span) + ": " : std::string();
  std::string about = about_text(report, d, d.about, in);
  if (!about.empty()) about += ": ";
  const std::string severity = severity_text(d, in);
  std::string head = fitted(fmt::format("{}{}: {}{} [{} {}]", place, severity,
                                        text::printable(about), text::printable(in.text(d.message)),
                                        d.definition->code, d.definition->name),
                            screen, 2);
  const std::size_t at = head.find(severity + ":", place.empty() ? 0 : place.size() - 1);
  if (at != std::string::npos)
    head.replace(at, severity.size(), painted(severity, paint_of(d.severity), screen));
  out += head + "\n";
  if (d.span.known())
    append_excerpt(out, sources[d.span.file], d.span, {}, paint_of(d.severity), screen);
  for (const diag::Label& label : d.labels) {
    if (!label.span.known()) continue;
    if (label.span.file != d.span.file) {
      out += "  " + in.text(frame::in_file(place_text(sources, label.span))) + "\n";
    }
    append_excerpt(out, sources[label.span.file], label.span, in.text(label.text), Paint::none,
                   screen);
  }
  const auto add = [&](const diag::Said& more) {
    out += fitted("  " + text::printable(in.text(more)), screen, 4) + "\n";
  };
  if (!d.accepted.empty()) add(frame::because(d.accepted));
  for (const diag::Said& note : d.notes)
    add(frame::note(note));
  for (const diag::Said& help : d.help)
    add(frame::help(help));
}

} // namespace

std::string fitted(std::string text, const Screen& screen, std::size_t indent) {
  return screen.columns == 0 ? std::move(text) : wrapped(text, screen.columns, indent);
}

std::string findings_text(const report::Report& report, const wording::Language& in,
                          const Screen& screen) {
  std::string out;
  for (const diag::Diagnostic& d : report.findings.all()) {
    if (d.known) continue;
    append_finding(out, d, report, in, screen);
    out += '\n';
  }
  if (report.findings.dropped() > 0) {
    out +=
        in.text(frame::not_shown_but_counted(static_cast<int>(report.findings.dropped()))) + "\n\n";
  }
  return out;
}

std::string findings_lines(const report::Report& report, const wording::Language& in) {
  std::string out;
  for (const diag::Diagnostic& d : report.findings.all()) {
    if (d.known) continue;
    if (d.span.known()) out += place_text(report.sources, d.span) + ": ";
    out += fmt::format("{}: {} {}: ", severity_text(d, in), d.definition->code, d.definition->name);
    const std::string about = about_text(report, d, d.about, in);
    if (!about.empty()) out += text::printable(about) + ": ";
    out += text::printable(in.text(d.message)) + "\n";
  }
  if (report.findings.dropped() > 0)
    out += in.text(frame::not_shown(static_cast<int>(report.findings.dropped()))) + "\n";
  return out;
}

} // namespace norma::emit
