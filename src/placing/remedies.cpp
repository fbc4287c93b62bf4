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
      const bool sharp = sharp_from(setting, other.axes);
      if (seen_only && !sharp) continue;
      // What shows one tooth must not turn another one away.
      const auto shown = look_that_is(
          [&](const std::vector<Shown>& all) {
            return none_hidden(all) && std::none_of(all.begin(), all.end(), [&](const Shown& x) {
                     return x.obliquity > limit;
                   });
          },
          setting, other);
      if (!shown) continue;
      if (sharp) return OtherAzimuth{a, true, least_seen(*shown)};
      seen_only = OtherAzimuth{a, false, least_seen(*shown)};
    }
  }
  return seen_only;
}

std::optional<double> least_seen_with_firm_pull(const Setting& setting, const Pose& pose) {
  const auto& right = pose.mouth.state().right;
  const auto& left = pose.mouth.state().left;
  const std::optional firm = setting.corners.firm;
  const auto shown =
      look_that_is(none_hidden, setting,
                   with_corners(pose, right ? firm : std::nullopt, left ? firm : std::nullopt));
  return shown ? std::optional(least_seen(*shown)) : std::nullopt;
}

std::vector<Shown> look_farther_in(const Setting& setting, const Pose& pose,
                                   const physics::Lamp* lamp) {
  const physics::MouthState& held = pose.mouth.state();
  const Pose in = with_corners(pose, farther_in(held.right), farther_in(held.left));
  return look_as_needed(setting, in, lamp, setting.wanted, {});
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
    const auto squarely = [&](const std::vector<Shown>& shown) {
      return std::none_of(shown.begin(), shown.end(), [&](const Shown& s) {
        const bool whole = s.seen >= setting.limits.in_mirror.value() * s.facing;
        return !whole || s.obliquity > limit || cut_by_frame(s);
      });
    };
    if (look_that_is(squarely, setting, seen_from(direct, right ? a : -a, Angle{}, Angle{})))
      return a;
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
  // Round ones have another place, where something else may hide what must show.
  const auto whole = [&](const std::vector<Shown>& shown) {
    return round ? shows_all(shown) : std::none_of(shown.begin(), shown.end(), cut_off);
  };
  // The first that is whole, of those that are larger by `most` at most.
  const auto first_whole = [&](Length most, const auto& larger,
                               bool longer) -> std::optional<LargerMirror> {
    std::optional<LargerMirror> found;
    Length by = size_step;
    for (; by <= most && !found; by += size_step) {
      const Sheet sheet = larger(by);
      const auto other = with_sheet(setting, pose, sheet);
      if (other && look_that_is(whole, setting, *other))
        found = LargerMirror{*other, sheet, longer};
    }
    // A coarse look may have missed a smaller one.
    for (by -= 2.0 * size_step; found && by >= size_step; by -= size_step) {
      const Sheet sheet = larger(by);
      const auto other = with_sheet(setting, pose, sheet);
      if (!other || !whole(look_at(setting, *other, nullptr, physics::fine_pieces))) break;
      found = LargerMirror{*other, sheet, longer};
    }
    return found;
  };
  const Length in_mouth = pose.mirror->width; // of the end that goes in
  const auto wider = [&] {
    const Length most = round ? std::min(most_wider, widest_round - in_mouth) : most_wider;
    return first_whole(
        most, [&](Length by) { return scaled(used.sheet, (in_mouth + by) / in_mouth); }, false);
  };
  if (round) return wider(); // it grows all round
  const auto longer = [&] {
    return first_whole(
        most_longer, [&](Length by) { return lengthened(used.sheet, by); }, true);
  };
  double beyond = 0;
  double beside = 0;
  for (const Shown& s : look_at(setting, pose)) {
    if (!cut_off(s)) continue;
    beyond += s.beyond;
    beside += s.beside - s.beyond;
  }
  if (beyond > beside) {
    auto found = longer();
    return found ? found : wider();
  }
  auto found = wider();
  return found ? found : longer();
}

std::optional<std::size_t> narrower_mirror_that_shows(const Setting& setting, const Pose& pose,
                                                      std::span<const Sheet> sheets, int tried) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const Sheet& narrowest = best ? sheets[*best] : setting.mirror->sheet;
    if (sheets[i].width >= narrowest.width || tried-- == 0) continue;
    Pose other = pose;
    other.mirror = with_sheet(setting, pose, sheets[i])->mirror;
    if (look_that_is(shows_all, setting, other)) best = i;
  }
  return best;
}

} // namespace norma::placing
