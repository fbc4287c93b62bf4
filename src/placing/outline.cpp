#include "placing/outline.hpp"

#include <algorithm>
#include <utility>

#include "physics/defaults.hpp"

namespace norma::placing {

physics::PlaneMirror outline_of(const Sheet& sheet) {
  physics::PlaneMirror m;
  m.width = sheet.width;
  m.narrow_end = sheet.narrow_end.value_or(m.width);
  if (sheet.small_end_in) std::swap(m.width, m.narrow_end);
  m.length = sheet.length;
  m.thickness = sheet.thickness;
  if (sheet.shape == Sheet::Shape::two_ends) {
    m.narrow_end = m.width;
    m.length = 0.5 * m.length; // the other end lies outside of the mouth
  }
  if (sheet.shape != Sheet::Shape::straight) {
    const Length least = std::min({m.width, m.narrow_end, m.length});
    m.corner = std::min(0.5 * least,
                        sheet.corner.value_or(physics::defaults::mirror_corner.value * m.width));
  }
  return m;
}

Sheet scaled(Sheet sheet, double scale) {
  sheet.width = sheet.width * scale;
  if (sheet.narrow_end) sheet.narrow_end = *sheet.narrow_end * scale;
  if (sheet.corner) sheet.corner = *sheet.corner * scale;
  return sheet;
}

Sheet lengthened(Sheet sheet, Length by) {
  sheet.length = sheet.length + by * (sheet.shape == Sheet::Shape::two_ends ? 2.0 : 1.0);
  return sheet;
}

} // namespace norma::placing
