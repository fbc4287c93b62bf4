// Printed pages of plain data on paper and on a screen.
#pragma once

#include <string>
#include <vector>

#include "drawing/page.hpp"
#include "emit/card_pages.hpp"
#include "emit/document.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// What its first line says.
std::string title_of(const Document& document);
/// Upright pages.
drawing::Paper as_paper(const std::vector<Document>& documents, const PaperSize& paper,
                        const wording::Language& in);

/// One self-contained page on which boxes can be ticked and lines be written on. It saves what was
/// filled in as a file (docs/schema/filled.schema.json) and opens it again; it keeps nothing
/// itself.
std::string as_html(const std::vector<Document>& documents, const wording::Language& in);

/// The elements of one page, for a file of another kind.
std::string elements_of(const Document& document, const wording::Language& in);

} // namespace norma::emit
