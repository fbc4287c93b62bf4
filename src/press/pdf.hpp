// Pages as PDF.
//
// The folder press/ is the program that prints: norma with cairo and pango.
#pragma once

#include "cli/run.hpp"
#include "drawing/page.hpp"

namespace norma::press {

/// The document, its fonts embedded; the same bytes for the same pages. What does not fit its box
/// at its least size, and letters that the fonts do not have, are told beside it.
cli::Printed pdf(const drawing::Paper& paper);

} // namespace norma::press
