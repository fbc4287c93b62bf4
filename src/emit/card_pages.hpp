// Cards laid out on paper.
#pragma once

#include <vector>

#include "drawing/page.hpp"
#include "emit/card.hpp"

namespace norma::emit {

struct PaperSize {
  double width; // mm, across
  double height;
};
inline constexpr PaperSize a4{297, 210};
inline constexpr PaperSize us_letter{279.4, 215.9};

/// A page for each view, across.
drawing::Paper cards_on_paper(const std::vector<Cards>& all, const PaperSize& paper,
                              const wording::Language& in);

/// All views of a series as rows of one page; of more than ten on several.
drawing::Paper cards_in_rows(const std::vector<Cards>& all, const PaperSize& paper,
                             const wording::Language& in);

} // namespace norma::emit
