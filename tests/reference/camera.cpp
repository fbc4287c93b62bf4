// The camera's perspective against OpenCV's projectPoints, which shares no code with ours.
#include <doctest/doctest.h>

#include <opencv2/calib3d.hpp>
#include <opencv2/core.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

#include "physics/anatomy/anatomy.hpp"
#include "physics/optics.hpp"
#include "physics/pinhole.hpp"

namespace norma::physics {
namespace {

/// OpenCV's camera has x to the right, y down, z forward.
cv::Mat rotation_of(const Axes& a) {
  return (cv::Mat_<double>(3, 3) << a.right.x, a.right.y, a.right.z, -a.up.x, -a.up.y, -a.up.z,
          a.forward.x, a.forward.y, a.forward.z);
}

void compare(Angle azimuth, Angle elevation, Angle roll, Magnification m) {
  const Axes axes = camera_axes(azimuth, elevation, roll);
  const Length focus = pupil_distance(100.0 * mm, m, PupilRatio{1.3});
  const Point aim{3.0 * mm, 12.0 * mm, -4.0 * mm};
  const Pinhole camera{aim - axes.forward * focus, axes, m, focus};

  std::vector<cv::Point3d> points;
  std::vector<SensorPoint> ours;
  for (const Crown& crown : adult_arch(true)) {
    for (const SurfacePoint& p : surface_grid(crown, Surface::facial, 3)) {
      points.emplace_back(p.at.x.in(mm), p.at.y.in(mm), p.at.z.in(mm));
      ours.push_back(*project(p.at, camera));
    }
  }
  const cv::Mat rotation = rotation_of(axes);
  const cv::Mat pupil = (cv::Mat_<double>(3, 1) << camera.pupil.x.in(mm), camera.pupil.y.in(mm),
                         camera.pupil.z.in(mm));
  cv::Mat turn;
  cv::Rodrigues(rotation, turn);
  const cv::Mat shift = -rotation * pupil;
  const double scale = m.value() * focus.in(mm);
  const cv::Mat inside = (cv::Mat_<double>(3, 3) << scale, 0, 0, 0, scale, 0, 0, 0, 1);
  std::vector<cv::Point2d> theirs;
  cv::projectPoints(points, turn, shift, inside, cv::noArray(), theirs);
  REQUIRE(theirs.size() == ours.size());
  double worst = 0;
  for (std::size_t i = 0; i < ours.size(); ++i) {
    worst = std::max(worst, std::abs(ours[i].right.in(mm)-theirs[i].x));
    worst = std::max(worst, std::abs(ours[i].up.in(mm) + theirs[i].y));
  }
  CHECK(worst < 1e-6);
}

} // namespace

TEST_CASE("the camera projects as OpenCV's projectPoints does") {
  compare(Angle{}, Angle{}, Angle{}, Magnification{0.5});
  compare(60.0 * degree, Angle{}, Angle{}, Magnification{0.5});
  compare(-35.0 * degree, 12.0 * degree, 5.0 * degree, Magnification{1.0 / 3.0});
  compare(10.0 * degree, -70.0 * degree, 175.0 * degree, Magnification{1});
}

} // namespace norma::physics
