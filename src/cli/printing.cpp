#include "cli/printing.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "text/utf8.hpp"

namespace norma::cli {

Format format_of(const Options& options, Format usual) {
  if (options.format != Format::text) return options.format;
  if (options.output.ends_with(".pdf")) return Format::pdf;
  if (options.output.ends_with(".html")) return Format::html;
  return usual;
}

std::optional<Outcome> needs_press(Format format, const Options& options) {
  if (format != Format::pdf || options.print) return std::nullopt;
  Outcome out =
      could_not_run("a PDF needs the program norma-press beside norma, and it is not there; "
                    "--format html prints as well");
  out.needs_press = true;
  return out;
}

const emit::PaperSize& paper_of(const Options& options) {
  return options.paper == PaperName::a4 ? emit::a4 : emit::us_letter;
}

Outcome print_to(Outcome outcome, const drawing::Paper& paper, const Options& options) {
  Printed out = options.print(paper);
  if (!out.failed.empty()) return could_not_run("the PDF could not be made: " + out.failed);
  constexpr std::size_t of_name = 80;
  for (const std::string& page : out.too_long)
    outcome.err += fmt::format("norma: page `{}`: a text is too long for its place, and was cut\n",
                               text::cut(text::printable(page), of_name));
  if (out.letters_missing > 0)
    outcome.err += fmt::format("norma: letters that the font does not have, shown as boxes: {}\n",
                               out.letters_missing);
  if (!out.too_long.empty() || out.letters_missing > 0) outcome.code = std::max(outcome.code, 1);
  return delivered(std::move(outcome), std::move(out.bytes), options);
}

Outcome documents_to(Outcome outcome, const std::vector<emit::Document>& all, Format format,
                     const Options& options) {
  if (all.empty()) return outcome;
  const wording::Language& in = *options.language;
  switch (format) {
  case Format::pdf:
    return print_to(std::move(outcome), emit::as_paper(all, paper_of(options), in), options);
  case Format::html: return delivered(std::move(outcome), emit::as_html(all, in), options);
  default: break;
  }
  std::string out;
  for (const emit::Document& document : all) {
    if (!out.empty()) out += '\n';
    out += format == Format::markdown ? emit::as_markdown(document) : emit::as_text(document);
  }
  return delivered(std::move(outcome), std::move(out), options);
}

} // namespace norma::cli
