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

namespace {

/// Judged by the setting's limits.
std::vector<Shown> judged(std::vector<Shown> shown, const Limits& limits) {
  for (Shown& one : shown) {
    one.enough_seen = one.seen >= limits.seen.value() * one.facing;
    one.in_mirror = one.beside <= (1.0 - limits.in_mirror.value()) * one.facing + 1e-9;
    one.enough_lit = one.lit >= limits.lit.value();
  }
  return shown;
}

/// Could finer pieces than the usual ones judge otherwise?
bool near_a_limit(const Shown& s, const Limits& limits, bool lit) {
  constexpr double share = 0.08; // usual pieces measure to within that
  constexpr Angle turned = 3.0 * degree;
  const auto near = [&](double measured, double limit) {
    return std::abs(measured - limit * s.facing) < share;
  };
  if (lit && std::abs(s.lit - limits.lit.value()) < share) return true;
  return near(s.seen, limits.seen.value()) || near(s.facing - s.beside, limits.in_mirror.value()) ||
         abs(s.obliquity - limits.turned) <= turned;
}

} // namespace

std::vector<Shown> look_at(const Setting& setting, const Pose& pose, const physics::Lamp* lamp,
                           int pieces) {
  return judged(
      physics::look(pose.mouth.mouth(), eye_of(setting, pose), lamp, setting.wanted, pieces),
      setting.limits);
}

namespace {

std::vector<Shown> as_needed(const Setting& setting, const physics::Mouth& mouth,
                             const physics::Eye& eye, const physics::Lamp* lamp,
                             std::span<const Wanted> wanted, Pieces pieces) {
  const auto look = [&](std::span<const Wanted> of, int by) {
    return judged(physics::look(mouth, eye, lamp, of, by, physics::Light::whether), setting.limits);
  };
  std::vector<Shown> shown = look(wanted, pieces.few);
  if (pieces.many <= pieces.few) return shown;
  for (Shown& one : shown) {
    if (!near_a_limit(one, setting.limits, lamp != nullptr)) continue;
    const Wanted again{one.tooth, one.surface};
    one = look({&again, 1}, pieces.many).front();
  }
  return shown;
}

} // namespace

std::vector<Shown> look_past_bodies(const Setting& setting, const Pose& pose,
                                    std::span<const Wanted> wanted, Pieces pieces) {
  const physics::Mouth& mouth = pose.mouth.mouth();
  return as_needed(setting, {mouth.crowns, {}, mouth.anatomy}, eye_of(setting, pose), nullptr,
                   wanted, pieces);
}

std::vector<Shown> look_as_needed(const Setting& setting, const Pose& pose,
                                  const physics::Lamp* lamp, std::span<const Wanted> wanted,
                                  Pieces pieces) {
  return as_needed(setting, pose.mouth.mouth(), eye_of(setting, pose), lamp, wanted, pieces);
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

bool fails(const std::vector<Shown>& shown, const Limits& limits) {
  return std::any_of(shown.begin(), shown.end(), [&](const Shown& s) {
    return cut_by_frame(s) || s.obliquity > limits.turned || !physics::enough_of(s) || in_shadow(s);
  });
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
