// Findings for people: place, message, the line with the place marked, notes, help.
#pragma once

#include <string>

#include "report/report.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// What shows a text. Where it is no terminal, lines are not broken and have no colour.
struct Screen {
  bool colour = false;
  std::size_t columns = 0; // 0: as wide as the lines are
};

/// All findings as text, each ending with a blank line. Nothing in it can act on a terminal but the
/// colours that the screen has (ECMA-48, Select Graphic Rendition).
std::string findings_text(const report::Report& report, const wording::Language& in,
                          const Screen& screen = {});

/// `text` broken at the screen's width; the second and later lines start with `indent` blanks.
std::string fitted(std::string text, const Screen& screen, std::size_t indent);

/// One line for each finding: place, severity, code, name, views, kit, message, parted as in
/// `a.norma:3:5: warning: P019 tooth_hidden: view right with chair_3: ...`.
std::string findings_lines(const report::Report& report, const wording::Language& in);

} // namespace norma::emit
