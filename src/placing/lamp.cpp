#include "placing/lamp.hpp"

#include <cmath>

#include "physics/mirror.hpp"
#include "physics/scene/glare.hpp"

namespace norma::placing {
namespace {

constexpr int ring_points = 16;

/// Which way from the lens a lamp beside it stands, in the picture as shot.
physics::Vec towards(const CameraLamp& lamp, Angle roll, const Pose& pose) {
  const physics::Axes& axes = pose.axes;
  switch (lamp.side) {
  case CameraLamp::Side::right: return axes.right;
  case CameraLamp::Side::left: return -axes.right;
  case CameraLamp::Side::above: return axes.up;
  case CameraLamp::Side::below: return -axes.up;
  case CameraLamp::Side::front_teeth:
  case CameraLamp::Side::cheek: break;
  }
  // In a view from the right, held level, the front teeth lie at the right of the picture.
  const bool over = abs(roll - 180.0 * degree) < 1.0 * degree;
  const bool right = (pose.azimuth > Angle{}) == (lamp.side == CameraLamp::Side::front_teeth);
  return right != over ? axes.right : -axes.right;
}

physics::Lamp placed(const CameraLamp& lamp, const Setting& setting, const Pose& pose,
                     bool other_side) {
  // In a mirror its image stands where the camera's image does.
  const physics::Axes& axes = pose.axes;
  const physics::Point middle = setting.camera.aim - axes.forward * lamp.distance;
  physics::Lamp out;
  switch (lamp.kind) {
  case CameraLamp::Kind::ring:
    out = physics::ring_lamp(middle, axes, lamp.off_axis, ring_points);
    break;
  case CameraLamp::Kind::built_in: out.points = {middle}; break;
  case CameraLamp::Kind::beside: {
    const physics::Vec way = towards(lamp, setting.camera.roll, pose);
    out.points = {middle + (other_side ? -way : way) * lamp.off_axis};
    break;
  }
  case CameraLamp::Kind::twin: {
    const physics::Vec way = towards(lamp, setting.camera.roll, pose);
    out.points = {middle + way * lamp.off_axis, middle - way * lamp.off_axis};
    out.strengths = {1.0, 1.0};
    break;
  }
  }
  return out;
}

/// As strong as to give its light at the aim, all points alike.
void add_as_heads(physics::Lamp& all, const CameraLamp& lamp, const physics::Lamp& one) {
  const double d = lamp.distance.in(mm);
  const double r = lamp.kind == CameraLamp::Kind::built_in ? 0.0 : lamp.off_axis.in(mm);
  const double of_one_point = d / std::pow(d * d + r * r, 1.5);
  const double strength = lamp.light / (of_one_point * static_cast<double>(one.points.size()));
  all.points.insert(all.points.end(), one.points.begin(), one.points.end());
  all.strengths.insert(all.strengths.end(), one.points.size(), strength);
}

} // namespace

std::optional<physics::Lamp> lamp_of(const Setting& setting, const Pose& pose, bool other_side) {
  if (!setting.lamp) return std::nullopt;
  physics::Lamp out = placed(*setting.lamp, setting, pose, other_side);
  if (setting.joined) {
    physics::Lamp both;
    add_as_heads(both, *setting.lamp, out);
    add_as_heads(both, *setting.joined, placed(*setting.joined, setting, pose, false));
    out = std::move(both);
  }
  if (pose.mirror) {
    for (physics::Point& p : out.points)
      p = physics::reflected(p, pose.mirror->middle, pose.mirror->normal);
  }
  return out;
}

bool may_shade(const Setting& setting) {
  return setting.lamp && (setting.joined || setting.lamp->kind != CameraLamp::Kind::built_in);
}

std::optional<physics::Point> lamp_in_mirror(const Setting& setting, const Pose& pose) {
  if (!pose.mirror) return std::nullopt;
  const auto here = lamp_of(setting, pose);
  if (!here) return std::nullopt;
  const physics::Mouth& mouth = pose.mouth.mouth();
  const physics::Eye eye = eye_of(setting, pose);
  if (here->strengths.empty()) return physics::lamp_in_mirror(mouth, eye, here->points);
  // Each head is seen by itself: between two of them there is nothing.
  for (const physics::Point& head : here->points) {
    if (const auto at = physics::lamp_in_mirror(mouth, eye, {&head, 1})) return at;
  }
  return std::nullopt;
}

std::optional<PictureThird> third_of(const Setting& setting, const Pose& pose, physics::Point at) {
  const auto on = physics::project(at, eye_of(setting, pose).lens);
  if (!on) return std::nullopt;
  const auto third = [](Length off, Length whole) {
    const double share = off / whole;
    return share < -1.0 / 6 ? -1 : share > 1.0 / 6 ? 1 : 0;
  };
  const Size sensor = setting.camera.sensor;
  return PictureThird{third(on->right, sensor.width), third(on->up, sensor.height)};
}

std::optional<Stops> light_evenness(const std::vector<Shown>& lit) {
  double most = 0;
  double least = 0;
  for (const Shown& s : lit) {
    if (stands_behind(s) || s.light <= 0) continue;
    most = std::max(most, s.light);
    least = least == 0 ? s.light : std::min(least, s.light);
  }
  if (least <= 0) return std::nullopt;
  return std::log2(most / least) * stop;
}

} // namespace norma::placing
