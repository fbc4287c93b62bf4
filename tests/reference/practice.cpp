// What photographers of teeth know must come out of the model by itself, where closed forms can
// show it. Every case here is common practice, no source; nothing in the model was put in for it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "physics/anatomy/anatomy.hpp"
#include "physics/cheek.hpp"
#include "physics/defaults.hpp"
#include "physics/extent.hpp"
#include "physics/mirror.hpp"
#include "physics/optics.hpp"

namespace norma::physics {
namespace {

constexpr Size full_frame{36.0 * mm, 24.0 * mm};
constexpr PupilRatio symmetrical_lens{1};

const Crown& upper(int iso) { return *find_crown(adult_arch(true), *Tooth::from_iso(iso)); }

/// Facial points of upper teeth in one quadrant's numbering, from the incisor backwards.
std::vector<SurfacePoint> facial(int first, int last) {
  std::vector<SurfacePoint> out;
  for (int iso = first; iso <= last; ++iso) {
    const auto grid = surface_grid(upper(iso), Surface::facial, 7);
    out.insert(out.end(), grid.begin(), grid.end());
  }
  return out;
}

MouthCorner corner(const Default& side, const Default& back) {
  return {side.value * mm, back.value * mm};
}

/// A view from the right at 60 degrees: a lamp at this offset towards the front teeth (+) or the
/// cheek (-), this far from the first premolar.
Point lamp(Length offset, Length distance) {
  const Axes axes = camera_axes(60.0 * degree, Angle{}, Angle{});
  return upper(14).edge - axes.forward * distance + axes.right * offset;
}

constexpr Length tooth_line = 29.0 * mm; // faces of the upper molars, to within a millimetre

std::optional<Length> lit_to(Length offset, Length distance) {
  namespace d = defaults;
  return reach(corner(d::corner_side_even, d::corner_back_even), tooth_line,
               lamp(offset, distance));
}

} // namespace

TEST_CASE(
    "practice: a point lamp on the cheek's side shadows the back teeth, on the front side not") {
  const auto cheek_side = lit_to(-60.0 * mm, 200.0 * mm);
  const auto front_side = lit_to(60.0 * mm, 200.0 * mm);
  REQUIRE(cheek_side);
  const auto axis = lit_to(Length{}, 200.0 * mm);
  REQUIRE(axis);
  // The cheek's side reaches less far back than the lens sees; the front side at least as far.
  CHECK(*cheek_side < *axis);
  CHECK((!front_side || *front_side > *axis));
}

TEST_CASE("practice: the cheek's shadow grows with the lamp's offset and as it comes closer") {
  CHECK(*lit_to(-80.0 * mm, 200.0 * mm) < *lit_to(-40.0 * mm, 200.0 * mm));
  CHECK(*lit_to(-60.0 * mm, 150.0 * mm) < *lit_to(-60.0 * mm, 250.0 * mm));
}

TEST_CASE("practice: more pull on the retractor shows teeth further back") {
  namespace d = defaults;
  const Axes axes = camera_axes(60.0 * degree, Angle{}, Angle{});
  const Point pupil = upper(14).edge - axes.forward * (300.0 * mm);
  const auto seen = [&](MouthCorner c) { return *reach(c, tooth_line, pupil); };
  const Length light = seen(corner(d::corner_side_light, d::corner_back_light));
  const Length even = seen(corner(d::corner_side_even, d::corner_back_even));
  const Length firm = seen(corner(d::corner_side_firm, d::corner_back_firm));
  CHECK(light < even);
  CHECK(even < firm);
}

TEST_CASE("practice: a mirror slightly too narrow loses the second molars first") {
  const auto width_for = [&](int iso) {
    std::vector<ArchPoint> points;
    for (const SurfacePoint& p : surface_grid(upper(iso), Surface::biting, 5)) {
      points.push_back({abs(p.at.x), p.at.y});
    }
    const Length hinge =
        upper(17).edge.y + 0.5 * upper(17).size.width + defaults::mirror_gap.value * mm;
    return mirror_needed(points, hinge, 45.0 * degree, 300.0 * mm, 20.0 * mm).width;
  };
  for (int iso = 11; iso < 17; ++iso) {
    CAPTURE(iso);
    CHECK(width_for(iso) < width_for(17));
  }
}

TEST_CASE("practice: a side view by mirror shows the last molar squarer than a direct one") {
  const auto off_square = [](const Crown& c, Angle azimuth) {
    const Vec to_camera = -camera_axes(azimuth, Angle{}, Angle{}).forward;
    return std::acos(dot(c.facial, to_camera)) * radian;
  };
  // In the mirror the image stands square to the named teeth; directly 60 degrees is usual.
  Vec mean;
  for (const int iso : {13, 14, 15, 16, 17})
    mean = mean + upper(iso).facial;
  const Angle square = std::atan2(-mean.x, -mean.y) * radian;
  CHECK(off_square(upper(17), square) < off_square(upper(17), 60.0 * degree));
}

TEST_CASE("practice: at 1:2 no usual aperture holds a front view from incisors to first molars") {
  const Axes front = camera_axes(Angle{}, Angle{}, Angle{});
  const auto depth = extent_of(facial(11, 16), Point{}, front, std::nullopt);
  REQUIRE(depth);
  const Length whole_depth = depth->towards + depth->away;
  const Magnification half{0.5};
  const Length c = usual_blur(full_frame);
  // Even with the focus where it is best, and past the marks of usual lenses.
  const Length near =
      balanced_focus(whole_depth, pupil_distance(100.0 * mm, half, symmetrical_lens));
  const auto n = f_number_holding(near, whole_depth - near, c, half, symmetrical_lens, 100.0 * mm);
  REQUIRE(n);
  CHECK(*n > FNumber{32});
  // Which teeth must be sharp has to be said: the four incisors are held by f/22.
  const auto four = extent_of(facial(11, 12), Point{}, front, std::nullopt);
  const Length four_depth = four->towards + four->away;
  const Length four_near =
      balanced_focus(four_depth, pupil_distance(100.0 * mm, half, symmetrical_lens));
  CHECK(*f_number_holding(four_near, four_depth - four_near, c, half, symmetrical_lens,
                          100.0 * mm) <= FNumber{22});
}

TEST_CASE(
    "practice: a round mirror of 34 mm shows the tongue side of four incisors, not of six teeth") {
  // Widest points of the tongue side, between the outer edges of the outermost teeth.
  const auto across = [](int iso) {
    Length widest;
    for (const SurfacePoint& p : surface_grid(upper(iso), Surface::lingual, 7)) {
      widest = std::max(widest, abs(p.at.x));
    }
    return 2.0 * widest;
  };
  // The mirror lies about 10 mm of ray behind the teeth, the pupil 300 mm away.
  const double nearer = (300.0 - 10.0) / 300.0;
  CHECK(across(12) * nearer < 34.0 * mm);
  CHECK(across(13) * nearer > 34.0 * mm);
}

TEST_CASE("practice: a ratio without a sensor size is ambiguous by the crop factor") {
  constexpr Size aps_c{23.5 * mm, 15.7 * mm};
  const Magnification half{0.5};
  CHECK(field(full_frame, half).width / field(aps_c, half).width == doctest::Approx(36.0 / 23.5));
  CHECK(1.0 / carried_ratio(half, full_frame, aps_c).nominal.value() == doctest::Approx(3));
}

TEST_CASE("practice: a mirror costs half a stop, some one stop") {
  // Light goes in and out by it. Rhodium and aluminium, one pass at 45 degrees and 550 nm.
  const auto picture = [](double n, double k) {
    return loss_of_picture(metal_reflection(RefractiveIndex{n}, k, 45.0 * degree)).in(stop);
  };
  const double aluminium = picture(1.0152, 6.6273);
  const double rhodium = picture(1.9667, 5.0156);
  CHECK(aluminium < 0.5);
  CHECK(rhodium > 0.5);
  CHECK(rhodium < 1.0);
}

} // namespace norma::physics
