// A drawing as SVG.
#pragma once

#include <string>
#include <string_view>

#include "drawing/display.hpp"

namespace norma::drawing {

/// Text for an element or an attribute; what cannot be printed is told by its code.
std::string escaped(std::string_view text);

/// An `svg` element, one unit a millimetre. `title` is what is read aloud in its place; `id`:
/// begins the names within it, which no other drawing of the same page may have.
std::string as_svg(const Drawing& drawing, std::string_view title, std::string_view id);
/// The same drawing once more on its page, turned: as_svg of this `id` stands there before.
std::string as_svg_turned(const Drawing& drawing, physics::Turn turn, std::string_view title,
                          std::string_view id);
/// A file of its own, on white.
std::string svg_file(const Drawing& drawing, std::string_view title);
/// The style sheet that all of them need.
std::string svg_style();

} // namespace norma::drawing
