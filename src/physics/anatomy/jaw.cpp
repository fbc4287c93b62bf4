#include "physics/anatomy/jaw.hpp"

#include <cmath>

namespace norma::physics {
namespace {

constexpr Angle widest_turn = 60.0 * degree;
constexpr double slide_stated_at = 46.0; // mm of opening

/// Front teeth (in front of the axis) go down.
Vec turned_open(Vec v, Angle by) {
  return {v.x, v.y * cos(by) - v.z * sin(by), v.y * sin(by) + v.z * cos(by)};
}

Length slide_at(const Jaw& jaw, Length opening) {
  const double hinge = jaw.hinge_only.in(mm);
  const double share = (opening.in(mm)-hinge) / (slide_stated_at - hinge);
  return share > 0 ? share * jaw.slide : Length{};
}

Vec slide_along(const JawPose& pose) { return {0, -cos(pose.path), -sin(pose.path)}; }

} // namespace

Jaw jaw_of(const AnatomyValues& values) {
  namespace d = defaults;
  Jaw jaw;
  jaw.lower_edge = {Length{}, values.length(d::overjet), values.length(d::overbite)};
  // Up and back along the height of Bonwill's triangle.
  const Length height = 0.5 * std::sqrt(3.0) * values.length(d::condyle_distance);
  const Angle rise = values.angle(d::balkwill_angle);
  jaw.axis = jaw.lower_edge + Point{Length{}, height * cos(rise), height * sin(rise)};
  jaw.hinge_only = values.length(d::hinge_opening);
  jaw.slide = values.length(d::condyle_slide);
  jaw.path = values.angle(d::condyle_path);
  return jaw;
}

Point in_pose(Point p, const JawPose& pose) {
  const Point arm = p - pose.axis;
  const Vec turned = turned_open({arm.x.in(mm), arm.y.in(mm), arm.z.in(mm)}, pose.rotation);
  return pose.axis + turned * mm + slide_along(pose) * pose.slide;
}

Crown in_pose(Crown crown, const JawPose& pose) {
  crown.edge = in_pose(crown.edge, pose);
  crown.along = turned_open(crown.along, pose.rotation);
  crown.facial = turned_open(crown.facial, pose.rotation);
  crown.root = turned_open(crown.root, pose.rotation);
  return crown;
}

Crown out_of_pose(Crown crown, const JawPose& pose) {
  const Point slid = crown.edge - slide_along(pose) * pose.slide - pose.axis;
  const Vec arm = turned_open({slid.x.in(mm), slid.y.in(mm), slid.z.in(mm)}, -pose.rotation);
  crown.edge = pose.axis + arm * mm;
  crown.along = turned_open(crown.along, -pose.rotation);
  crown.facial = turned_open(crown.facial, -pose.rotation);
  crown.root = turned_open(crown.root, -pose.rotation);
  return crown;
}

std::optional<JawPose> jaw_open(Length opening) {
  static const Jaw mean = jaw_of();
  return jaw_open(mean, opening);
}

std::optional<JawPose> jaw_open(const Jaw& jaw, Length opening) {
  const Length slide = slide_at(jaw, opening);
  const auto pose = [&](Angle turn) { return JawPose{turn, slide, jaw.axis, jaw.path}; };
  const auto edge = [&](Angle turn) { return in_pose(jaw.lower_edge, pose(turn)); };
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
  return pose(0.5 * (least + most));
}

} // namespace norma::physics
