#include "physics/anatomy/jaw.hpp"

#include <cmath>

#include "physics/defaults.hpp"

namespace norma::physics {
namespace {

constexpr Angle widest_turn = 60.0 * degree;
constexpr double slide_stated_at = 46.0; // mm of opening

/// Edges of the lower incisors in the midline, teeth together.
Point lower_edge() {
  return {Length{}, defaults::overjet.value * mm, defaults::overbite.value * mm};
}

/// The middle between the condyles, teeth together: up and back along the height of Bonwill's
/// triangle.
Point axis() {
  const Length height = 0.5 * std::sqrt(3.0) * defaults::condyle_distance.value * mm;
  const Angle rise = defaults::balkwill_angle.value * degree;
  return lower_edge() + Point{Length{}, height * cos(rise), height * sin(rise)};
}

/// Front teeth (in front of the axis) go down.
Vec turned_open(Vec v, Angle by) {
  return {v.x, v.y * cos(by) - v.z * sin(by), v.y * sin(by) + v.z * cos(by)};
}

Length slide_at(Length opening) {
  const double hinge = defaults::hinge_opening.value;
  const double share = (opening.in(mm)-hinge) / (slide_stated_at - hinge);
  return share > 0 ? share * defaults::condyle_slide.value * mm : Length{};
}

} // namespace

Point in_pose(Point p, const JawPose& pose) {
  const Point arm = p - axis();
  const Vec turned = turned_open({arm.x.in(mm), arm.y.in(mm), arm.z.in(mm)}, pose.rotation);
  const Angle path = defaults::condyle_path.value * degree;
  return axis() + turned * mm + Vec{0, -cos(path), -sin(path)} * pose.slide;
}

Crown in_pose(Crown crown, const JawPose& pose) {
  crown.edge = in_pose(crown.edge, pose);
  crown.along = turned_open(crown.along, pose.rotation);
  crown.facial = turned_open(crown.facial, pose.rotation);
  crown.root = turned_open(crown.root, pose.rotation);
  return crown;
}

Crown out_of_pose(Crown crown, const JawPose& pose) {
  const Angle path = defaults::condyle_path.value * degree;
  const Point slid = crown.edge - Vec{0, -cos(path), -sin(path)} * pose.slide - axis();
  const Vec arm = turned_open({slid.x.in(mm), slid.y.in(mm), slid.z.in(mm)}, -pose.rotation);
  crown.edge = axis() + arm * mm;
  crown.along = turned_open(crown.along, -pose.rotation);
  crown.facial = turned_open(crown.facial, -pose.rotation);
  crown.root = turned_open(crown.root, -pose.rotation);
  return crown;
}

std::optional<JawPose> jaw_open(Length opening) {
  const Length slide = slide_at(opening);
  const auto edge = [&](Angle turn) { return in_pose(lower_edge(), {turn, slide}); };
  const auto apart = [&](Angle turn) {
    const Point e = edge(turn);
    return std::hypot(e.y.in(mm), e.z.in(mm)) * mm;
  };
  // Below the upper edges, where the distance grows with the turn.
  Angle least;
  Angle most = widest_turn;
  if (edge(least).z > Length{}) {
    Angle above = least;
    Angle below = most;
    for (int i = 0; i < 60; ++i) {
      const Angle middle = 0.5 * (above + below);
      (edge(middle).z > Length{} ? above : below) = middle;
    }
    least = below;
  }
  if (apart(least) > opening || apart(most) < opening) return std::nullopt;
  for (int i = 0; i < 60; ++i) {
    const Angle middle = 0.5 * (least + most);
    (apart(middle) < opening ? least : most) = middle;
  }
  return JawPose{0.5 * (least + most), slide};
}

} // namespace norma::physics
