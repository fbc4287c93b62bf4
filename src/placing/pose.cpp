#include "placing/pose.hpp"

#include <cmath>
#include <iterator>
#include <utility>

#include "physics/mirror.hpp"

namespace norma::placing {
namespace {

bool not_in_mirror(const Shown& s) {
  return s.hider == Hider::beside_mirror || s.hider == Hider::turned_from_mirror;
}
bool not_enough(const Shown& s) { return !s.enough_seen; }

} // namespace

HeldMouth::HeldMouth(physics::MouthState state) {
  physics::Mouth mouth = physics::make_mouth(state);
  held_ = std::make_shared<const Held>(Held{std::move(state), std::move(mouth)});
}

Pose bare_pose(const Setting& setting) {
  return {HeldMouth(setting.mouth), setting.camera.azimuth, setting.camera.axes, {}};
}

Pose with_corners(const Pose& pose, std::optional<physics::MouthCorner> right,
                  std::optional<physics::MouthCorner> left) {
  physics::MouthState state = pose.mouth.state();
  state.right = right;
  state.left = left;
  Pose out = pose;
  out.mouth = HeldMouth(std::move(state));
  return out;
}

physics::Eye eye_of(const Setting& setting, const Pose& pose) {
  const Camera& camera = setting.camera;
  physics::Eye eye;
  const physics::Point seen_from = camera.aim - pose.axes.forward * camera.pupil_distance;
  eye.lens = {seen_from, pose.axes, camera.ratio, camera.pupil_distance};
  eye.pupil = pose.mirror ? physics::reflected(seen_from, pose.mirror->middle, pose.mirror->normal)
                          : seen_from;
  eye.sensor = camera.sensor;
  eye.mirror = pose.mirror;
  return eye;
}

std::vector<Shown> look_at(const Setting& setting, const Pose& pose, const physics::Lamp* lamp,
                           int pieces) {
  const Limits& limits = setting.limits;
  std::vector<Shown> shown =
      physics::look(pose.mouth.mouth(), eye_of(setting, pose), lamp, setting.wanted, pieces);
  for (Shown& one : shown) {
    one.enough_seen = one.seen >= limits.seen.value() * one.facing;
    one.in_mirror = one.beside <= (1.0 - limits.in_mirror.value()) * one.facing + 1e-9;
    one.enough_lit = one.lit >= limits.lit.value();
  }
  return shown;
}

void light_up(const Setting& setting, const Pose& pose, const physics::Lamp& lamp,
              std::vector<Shown>& seen, int pieces) {
  physics::light_up(pose.mouth.mouth(), eye_of(setting, pose), lamp, seen, pieces);
  for (Shown& one : seen)
    one.enough_lit = one.lit >= setting.limits.lit.value();
}

std::optional<std::vector<Shown>>
look_that_is(const std::function<bool(const std::vector<Shown>&)>& good, const Setting& setting,
             const Pose& pose) {
  if (!good(look_at(setting, pose))) return std::nullopt;
  std::vector<Shown> shown = look_at(setting, pose, nullptr, physics::fine_pieces);
  if (!good(shown)) return std::nullopt;
  return shown;
}

std::vector<physics::Box> hard_bodies(const physics::Mouth& mouth) {
  std::vector<physics::Box> out;
  std::copy_if(mouth.boxes.begin(), mouth.boxes.end(), std::back_inserter(out),
               [](const physics::Box& b) {
                 return b.body == physics::Body::crown || b.body == physics::Body::gum;
               });
  return out;
}

Angle camera_itself(const Pose& pose) {
  const physics::Vec f = physics::reflected(pose.axes.forward, pose.mirror->normal);
  return std::atan2(f.x, f.y) * radian;
}

bool cut_off(const Shown& s) { return !s.in_mirror || (not_in_mirror(s) && not_enough(s)); }

bool stands_behind(const Shown& s) {
  return s.hider != Hider::nothing && !not_in_mirror(s) && not_enough(s);
}

bool in_shadow(const Shown& s) {
  constexpr double measured_to = 0.02;
  const bool in_mirror = s.shade != Hider::beside_mirror && s.shade != Hider::turned_from_mirror;
  return s.thrown > measured_to && in_mirror && s.seen > 0 && !stands_behind(s) && !s.enough_lit;
}

double least_seen(const std::vector<Shown>& shown) {
  double least = 1.0;
  for (const Shown& s : shown)
    least = std::min(least, s.facing > 0 ? s.seen / s.facing : 0.0);
  return least;
}

double seen_in_all(const std::vector<Shown>& shown, double sum) {
  for (const Shown& s : shown)
    sum += s.facing > 0 ? s.seen / s.facing : 0;
  return sum;
}

} // namespace norma::placing
