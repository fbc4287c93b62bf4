// A head as a camera sees it that takes a view of the face: plain, by eye, of the size of a mean
// one. Nothing is measured on it.
#pragma once

#include "drawing/display.hpp"
#include "physics/quantity.hpp"

namespace norma::drawing {

struct Face {
  Angle azimuth;          // of the camera, + from the patient's right
  Angle elevation;        // + from above
  double field_width = 0; // mm at the face
  double field_height = 0;
  bool smiling = false;
  bool on_eye = false; // it is focused on the nearer eye
};
/// The whole frame, its long side `long_side` mm.
Drawing face(const Face& what, double long_side);

} // namespace norma::drawing
