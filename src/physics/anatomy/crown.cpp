#include "physics/anatomy/crown.hpp"

#include <algorithm>
#include <array>

namespace norma::physics {
namespace {

struct Row {
  int tooth; // the one on the patient's right (left in the lower jaw): both sides are alike
  CrownSize size;
};
// height, width, width at the neck, depth, depth at the neck
constexpr std::array<Row, 26> table{{
    {11, {10.5 * mm, 8.5 * mm, 7.0 * mm, 7.0 * mm, 6.0 * mm}},
    {12, {9.0 * mm, 6.5 * mm, 5.0 * mm, 6.0 * mm, 5.0 * mm}},
    {13, {10.0 * mm, 7.5 * mm, 5.5 * mm, 8.0 * mm, 7.0 * mm}},
    {14, {8.5 * mm, 7.0 * mm, 5.0 * mm, 9.0 * mm, 8.0 * mm}},
    {15, {8.5 * mm, 7.0 * mm, 5.0 * mm, 9.0 * mm, 8.0 * mm}},
    {16, {7.5 * mm, 10.0 * mm, 8.0 * mm, 11.0 * mm, 10.0 * mm}},
    {17, {7.0 * mm, 9.0 * mm, 7.0 * mm, 11.0 * mm, 10.0 * mm}},
    {18, {6.5 * mm, 8.5 * mm, 6.5 * mm, 10.0 * mm, 9.5 * mm}},
    {31, {9.0 * mm, 5.0 * mm, 3.5 * mm, 6.0 * mm, 5.3 * mm}},
    {32, {9.5 * mm, 5.5 * mm, 4.0 * mm, 6.5 * mm, 5.8 * mm}},
    {33, {11.0 * mm, 7.0 * mm, 5.5 * mm, 7.5 * mm, 7.0 * mm}},
    {34, {8.5 * mm, 7.0 * mm, 5.0 * mm, 7.5 * mm, 6.5 * mm}},
    {35, {8.0 * mm, 7.0 * mm, 5.0 * mm, 8.0 * mm, 7.0 * mm}},
    {36, {7.5 * mm, 11.0 * mm, 9.0 * mm, 10.5 * mm, 9.0 * mm}},
    {37, {7.0 * mm, 10.5 * mm, 8.0 * mm, 10.0 * mm, 9.0 * mm}},
    {38, {7.0 * mm, 10.0 * mm, 7.5 * mm, 9.5 * mm, 9.0 * mm}},
    {51, {6.0 * mm, 6.5 * mm, 4.5 * mm, 5.0 * mm, 4.0 * mm}},
    {52, {5.6 * mm, 5.1 * mm, 3.7 * mm, 4.0 * mm, 3.7 * mm}},
    {53, {6.5 * mm, 7.0 * mm, 5.1 * mm, 7.0 * mm, 5.5 * mm}},
    {54, {5.1 * mm, 7.3 * mm, 5.2 * mm, 8.5 * mm, 6.9 * mm}},
    {55, {5.7 * mm, 8.2 * mm, 6.4 * mm, 10.0 * mm, 8.3 * mm}},
    {71, {5.0 * mm, 4.2 * mm, 3.0 * mm, 4.0 * mm, 3.5 * mm}},
    {72, {5.2 * mm, 4.1 * mm, 3.0 * mm, 4.0 * mm, 3.5 * mm}},
    {73, {6.0 * mm, 5.0 * mm, 3.7 * mm, 4.8 * mm, 4.0 * mm}},
    {74, {6.0 * mm, 7.7 * mm, 6.5 * mm, 7.0 * mm, 5.3 * mm}},
    {75, {5.5 * mm, 9.9 * mm, 7.2 * mm, 8.7 * mm, 6.4 * mm}},
}};

double lerp(double a, double b, double t) { return a + (b - a) * t; }

/// Half width and half depth of a crown at a share of its height, 0 at the edge, 1 at the neck.
struct Profile {
  Length half_width;
  Length half_depth;
};

Profile profile(const Crown& crown, double height) {
  const CrownSize& s = crown.size;
  const double contact = crown.shape.contact_height;
  const double crest = crown.shape.crest_height;
  Profile p;
  p.half_width = 0.5 * mm *
                 (height <= contact ? s.width.in(mm)
                                    : lerp(s.width.in(mm), s.width_at_neck.in(mm),
                                           (height - contact) / (1.0 - contact)));
  p.half_depth =
      0.5 * mm *
      (height <= crest
           ? lerp(crown.shape.edge_depth.in(mm), s.depth.in(mm), height / crest)
           : lerp(s.depth.in(mm), s.depth_at_neck.in(mm), (height - crest) / (1.0 - crest)));
  return p;
}

/// A point of the facial (outwards = 1) or lingual (-1) face: across -1..1, height 0..1.
Point face_point(const Crown& c, double across, double height, double outwards) {
  const Profile p = profile(c, height);
  const Length sag = c.shape.face_sag * c.size.width * (across * across);
  const Length out = std::max(0.0 * mm, p.half_depth - sag);
  return c.edge + c.along * (across * p.half_width) + c.facial * (outwards * out) +
         c.root * (height * c.size.height);
}

Point biting_point(const Crown& c, double across, double depth) {
  const Profile p = profile(c, 0.0);
  const Length sag = c.shape.face_sag * c.size.width * (across * across);
  const Length out = std::max(0.0 * mm, p.half_depth - sag);
  return c.edge + c.along * (across * p.half_width) + c.facial * (depth * out);
}

Vec difference(Point a, Point b) {
  return {(a.x - b.x).in(mm), (a.y - b.y).in(mm), (a.z - b.z).in(mm)};
}

} // namespace

std::string_view to_text(Surface s) {
  switch (s) {
  case Surface::facial: return "facial";
  case Surface::biting: return "biting";
  case Surface::lingual: return "lingual";
  }
  return "";
}

CrownSize crown_size(Tooth tooth) {
  const auto same = [&](const Row& row) {
    return row.tooth == tooth.iso() || row.tooth == tooth.other_side().iso();
  };
  // Every tooth of ISO 3950 has a row, on one side or the other: held by a test.
  return std::find_if(table.begin(), table.end(), same)->size;
}

CrownSize crown_size(Tooth tooth, const AnatomyValues& values) {
  CrownSize size = crown_size(tooth);
  const OwnTooth* own = values.own(tooth);
  if (own == nullptr) return size;
  if (own->height) size.height = *own->height;
  if (own->width) {
    size.width_at_neck = *own->width * (size.width_at_neck / size.width);
    size.width = *own->width;
  }
  if (own->depth) {
    size.depth_at_neck = *own->depth * (size.depth_at_neck / size.depth);
    size.depth = *own->depth;
  }
  return size;
}

CrownShape crown_shape(Tooth tooth, const CrownSize& size, const AnatomyValues& values) {
  namespace d = defaults;
  const int position = tooth.position();
  const Length edge = position <= 2   ? values.length(d::incisor_edge)
                      : position == 3 ? values.length(d::canine_edge)
                                      : values.share(d::table_share) * size.depth;
  return {edge, values.share(d::contact_height), values.share(d::crest_height),
          values.share(d::face_sag)};
}

Length depth_at(const Crown& crown, double height) {
  return 2.0 * profile(crown, height).half_depth;
}

std::vector<SurfacePoint> surface_grid(const Crown& crown, Surface surface, int n, Band band) {
  std::vector<SurfacePoint> out;
  out.reserve(static_cast<std::size_t>(n) * static_cast<std::size_t>(n));
  constexpr double step = 1e-3;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      const double across = -1.0 + 2.0 * i / (n - 1);
      const double share = static_cast<double>(j) / (n - 1);
      if (surface == Surface::biting) {
        out.push_back({biting_point(crown, across, 2.0 * share - 1.0), -crown.root});
        continue;
      }
      const double second = band.from + (band.to - band.from) * share;
      const double outwards = surface == Surface::facial ? 1.0 : -1.0;
      const Point at = face_point(crown, across, second, outwards);
      // The normal stands on two short steps along the surface, taken inwards from its edges.
      // In the middle they go both ways, so that both sides of the mouth come out alike.
      const double across_step = across > 0 ? -step : step;
      const double height_step = second > 0.5 ? -step : step;
      const Point other = across == 0 ? face_point(crown, -step, second, outwards) : at;
      const Vec u = difference(face_point(crown, across + across_step, second, outwards), other);
      const Vec v = difference(face_point(crown, across, second + height_step, outwards), at);
      Vec normal = unit(cross(u, v));
      if (dot(normal, crown.facial) * outwards < 0) normal = -normal;
      out.push_back({at, normal});
    }
  }
  return out;
}

namespace {

/// Of a face at a place across it (-1 to 1) and up it: where, and its normal as long as its area
/// for each step across and up, mm^2.
struct Patch {
  Point at;
  Vec outward;
};

Patch patch_of_face(const Crown& c, double across, double height, double outwards) {
  const CrownSize& s = c.size;
  const double contact = c.shape.contact_height;
  const double crest = c.shape.crest_height;
  const Profile p = profile(c, height);
  // Steps of half the width and half the depth up the crown.
  const double wider =
      height <= contact ? 0.0 : 0.5 * (s.width_at_neck - s.width).in(mm) / (1.0 - contact);
  double deeper = 0.5 * (height <= crest ? (s.depth - c.shape.edge_depth).in(mm) / crest
                                         : (s.depth_at_neck - s.depth).in(mm) / (1.0 - crest));
  double sag = c.shape.face_sag * s.width.in(mm);
  const Length out = p.half_depth - sag * (across * across) * mm;
  if (out <= Length{}) sag = deeper = 0;
  const double half_width = p.half_width.in(mm);
  const double up = s.height.in(mm);
  const Vec outward = c.along * (2.0 * sag * across * up) +
                      c.facial * (outwards * half_width * up) +
                      c.root * (-half_width * deeper - 2.0 * sag * across * across * wider);
  return {c.edge + c.along * (across * p.half_width) +
              c.facial * (outwards * std::max(Length{}, out)) + c.root * (height * s.height),
          outward};
}

} // namespace

std::vector<SurfacePiece> surface_pieces(const Crown& crown, Surface surface, int count) {
  int points = 1;
  int step = 1;
  while (points < count) {
    const int next = points + step;
    step = points;
    points = next;
  }
  // Along the arch runs to the patient's left on both sides: the one is to mirror the other.
  const double side = crown.tooth.is_right() ? 1.0 : -1.0;
  std::vector<SurfacePiece> out;
  out.reserve(static_cast<std::size_t>(points));
  double whole = 0;
  for (int i = 0; i < points; ++i) {
    const double across = side * ((2.0 * i + 1.0) / points - 1.0);
    const double second = (i * step % points + 0.5) / points;
    Patch patch;
    if (surface == Surface::biting) {
      patch.at = biting_point(crown, across, 2.0 * second - 1.0);
      const Length sag = crown.shape.face_sag * crown.size.width * (across * across);
      const Length deep = profile(crown, 0.0).half_depth - sag;
      patch.outward = crown.root * -std::max(0.0, deep.in(mm));
    } else {
      patch = patch_of_face(crown, across, second, surface == Surface::facial ? 1.0 : -1.0);
    }
    const double area = norm(patch.outward);
    whole += area;
    out.push_back({patch.at, area > 0 ? patch.outward * (1.0 / area) : -crown.root, area});
  }
  for (SurfacePiece& piece : out)
    piece.share /= whole;
  return out;
}

} // namespace norma::physics
