// Points and directions in the frame of the jaw that is shown. Axes as in DICOM's patient system
// (LPS), millimetres: +x to the patient's left, +y backwards, +z up; the origin is the contact of
// 11 and 21 on the incisal edges. Camera azimuth 0 is from the front, + towards the patient's
// right; elevation + from above.
#pragma once

#include "physics/quantity.hpp"

namespace norma::physics {

/// A vector without unit; a direction where it has length 1.
struct Vec {
  double x = 0, y = 0, z = 0;
  friend constexpr Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr Vec operator*(Vec a, double k) { return {a.x * k, a.y * k, a.z * k}; }
  friend constexpr Vec operator*(double k, Vec a) { return a * k; }
  constexpr Vec operator-() const { return {-x, -y, -z}; }
  friend constexpr bool operator==(const Vec&, const Vec&) = default;
};
constexpr double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec cross(Vec a, Vec b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double norm(Vec a) { return std::sqrt(dot(a, a)); }
inline Vec unit(Vec a) { return a * (1.0 / norm(a)); }

/// A place, each coordinate a length.
struct Point {
  Length x, y, z;
  friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr bool operator==(const Point&, const Point&) = default;
};
/// How far `p` lies along `direction` from the origin.
constexpr Length along(Point p, Vec direction) {
  return p.x * direction.x + p.y * direction.y + p.z * direction.z;
}
constexpr Point operator*(Vec direction, Length l) {
  return {direction.x * l, direction.y * l, direction.z * l};
}
/// The way from one to the other, in millimetres.
constexpr Vec direction(Point from, Point to) {
  const Point d = to - from;
  return {d.x.in(mm), d.y.in(mm), d.z.in(mm)};
}

} // namespace norma::physics
