// What is printed: in which form, on which paper, and what did not come out whole.
#pragma once

#include "cli/commands.hpp"
#include "emit/document_pages.hpp"

namespace norma::cli {

/// What --format says; where it says nothing, by the name of the file of -o, else `usual`.
Format format_of(const Options& options, Format usual);
/// How a run ends that wants a PDF from a program that makes none; nothing else.
std::optional<Outcome> needs_press(Format format, const Options& options);
const emit::PaperSize& paper_of(const Options& options);
/// `outcome` with the PDF; it tells what did not fit its page, or why there is none.
Outcome print_to(Outcome outcome, const drawing::Paper& paper, const Options& options);
/// `outcome` with these pages, one after the other.
Outcome documents_to(Outcome outcome, const std::vector<emit::Document>& all, Format format,
                     const Options& options);

} // namespace norma::cli
