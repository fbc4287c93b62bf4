#include "placing/remedies.hpp"

#include "placing/depth.hpp"
#include "placing/layout.hpp"
#include "placing/mirror.hpp"
#include "placing/outline.hpp"

namespace norma::placing {
namespace {

constexpr Angle azimuth_step = 5.0 * degree;
constexpr Length size_step = 2.0 * mm;

/// The pose with the camera level with the setting's elevation and roll, from another side.
Pose seen_from(const Pose& pose, Angle azimuth, Angle elevation, Angle roll) {
  Pose other = pose;
  other.azimuth = azimuth;
  other.axes = physics::camera_axes(azimuth, elevation, roll);
  return other;
}

std::optional<physics::MouthCorner> farther_in(std::optional<physics::MouthCorner> corner) {
  constexpr Length moved = 5.0 * mm;
  if (!corner) return std::nullopt;
  return physics::MouthCorner{corner->side - moved, corner->back - moved};
}

} // namespace

std::optional<OtherAzimuth> azimuth_that_shows(const Setting& setting, const Pose& pose) {
  constexpr Angle widest = 90.0 * degree;
  if (pose.mirror || abs(pose.azimuth) < aside) return std::nullopt;
  const double side = pose.azimuth < Angle{} ? -1.0 : 1.0;
  const Angle given = abs(pose.azimuth);
  const Angle limit = setting.limits.turned;
  std::optional<OtherAzimuth> seen_only;
  for (Angle off = azimuth_step; off <= widest; off += azimuth_step) {
    for (const Angle a : {given + off, given - off}) {
      if (a < aside || a > widest) continue;
      const Pose other = seen_from(pose, side * a, setting.camera.elevation, setting.camera.roll);
      const std::vector<Shown> shown = look_at(setting, other);
      // What shows one tooth must not turn another one away.
      const bool round = std::any_of(shown.begin(), shown.end(),
                                     [&](const Shown& x) { return x.obliquity > limit; });
      if (round || !none_hidden(shown)) continue;
      if (sharp_from(setting, other.axes)) return OtherAzimuth{a, true};
      if (!seen_only) seen_only = OtherAzimuth{a, false};
    }
  }
  return seen_only;
}

bool firm_pull_shows_all(const Setting& setting, const Pose& pose) {
  const auto& right = pose.mouth.state().right;
  const auto& left = pose.mouth.state().left;
  const std::optional firm = setting.corners.firm;
  return none_hidden(look_at(
      setting, with_corners(pose, right ? firm : std::nullopt, left ? firm : std::nullopt)));
}

std::vector<Tooth> hidden_farther_in(const Setting& setting, const Pose& pose) {
  const physics::MouthState& held = pose.mouth.state();
  const Pose in = with_corners(pose, farther_in(held.right), farther_in(held.left));
  return teeth_of(look_at(setting, in), stands_behind);
}

std::optional<Angle> azimuth_without_mirror(const Setting& setting, const Pose& pose) {
  constexpr Angle nearest = 30.0 * degree;
  constexpr Angle farthest = 75.0 * degree;
  const bool right = setting.camera.azimuth > Angle{};
  const Angle limit = std::min(setting.limits.turned, setting.limits.squarely);
  const physics::MouthState& held = pose.mouth.state();
  const std::optional firm = setting.corners.firm;
  Pose direct = right ? with_corners(pose, firm, held.left) : with_corners(pose, held.right, firm);
  direct.mirror.reset();
  for (Angle a = nearest; a <= farthest; a += azimuth_step) {
    const std::vector<Shown> shown =
        look_at(setting, seen_from(direct, right ? a : -a, Angle{}, Angle{}));
    const bool all = std::none_of(shown.begin(), shown.end(), [&](const Shown& s) {
      return stands_behind(s) || s.obliquity > limit || cut_by_frame(s);
    });
    if (all) return a;
  }
  return std::nullopt;
}

std::optional<LargerMirror> larger_mirror_that_shows(const Setting& setting, const Pose& pose) {
  constexpr Length widest_round = 50.0 * mm; // larger ones do not go in
  constexpr Length most_wider = 60.0 * mm;
  constexpr Length most_longer = 100.0 * mm;
  const UsedMirror& used = *setting.mirror;
  // Beside the tongue a wider one has another place, or none: that is searched where it is placed.
  if (used.use == MirrorUse::beside_tongue) return std::nullopt;
  const bool round = used.use == MirrorUse::round;
  const auto good = [&](const std::optional<Pose>& other) {
    if (!other) return false;
    const std::vector<Shown> shown = look_at(setting, *other);
    // Round ones have another place, where something else may hide what must show.
    return round ? shows_all(shown) : std::none_of(shown.begin(), shown.end(), cut_off);
  };
  const Length in_mouth = pose.mirror->width; // of the end that goes in
  for (Length wider = size_step; wider <= most_wider; wider += size_step) {
    if (round && in_mouth + wider > widest_round) return std::nullopt;
    const Sheet sheet = scaled(used.sheet, (in_mouth + wider) / in_mouth);
    const auto other = with_sheet(setting, pose, sheet);
    if (good(other)) return LargerMirror{*other, sheet, false};
  }
  if (round) return std::nullopt; // it has grown all round
  for (Length longer = size_step; longer <= most_longer; longer += size_step) {
    const Sheet sheet = lengthened(used.sheet, longer);
    const auto other = with_sheet(setting, pose, sheet);
    if (good(other)) return LargerMirror{*other, sheet, true};
  }
  return std::nullopt;
}

std::optional<std::size_t> narrower_mirror_that_shows(const Setting& setting, const Pose& pose,
                                                      std::span<const Sheet> sheets, int tried) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const Sheet& narrowest = best ? sheets[*best] : setting.mirror->sheet;
    if (sheets[i].width >= narrowest.width || tried-- == 0) continue;
    Pose other = pose;
    other.mirror = with_sheet(setting, pose, sheets[i])->mirror;
    if (shows_all(look_at(setting, other))) best = i;
  }
  return best;
}

} // namespace norma::placing
