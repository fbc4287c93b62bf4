#include "placing/cheek_mirror.hpp"

#include <algorithm>

#include "physics/defaults.hpp"
#include "physics/mirror.hpp"
#include "placing/lamp.hpp"
#include "placing/mirror.hpp"
#include "placing/outline.hpp"
#include "placing/surfaces.hpp"

namespace norma::placing {
namespace {

physics::PlaneMirror mirror_beside(bool right, physics::Point back_edge, Angle opened,
                                   const physics::PlaneMirror& outline) {
  const double outwards = right ? -1.0 : 1.0;
  physics::PlaneMirror m = outline;
  m.along = {outwards * sin(opened), -cos(opened), 0};
  m.normal = {-outwards * cos(opened), -sin(opened), 0}; // towards the teeth and forwards
  m.across = {0, 0, 1};
  m.middle = back_edge + m.along * (0.5 * m.length);
  return m;
}

/// How far from the midline it stands, `back` behind the incisors, or at the end next to there.
Length aside_at(const physics::PlaneMirror& m, Length back) {
  const Length way = std::clamp((back - m.middle.y) / m.along.y, -0.5 * m.length, 0.5 * m.length);
  return abs(m.middle.x + way * m.along.x);
}

} // namespace

std::optional<CheekMirror> search_cheek_mirror(const Setting& setting, const Pose& pose, bool right,
                                               const Sheet& sheet,
                                               std::optional<physics::MouthCorner> corner) {
  constexpr Angle widest = 60.0 * degree;
  constexpr Angle step = 2.5 * degree;
  constexpr Angle camera_aside = 60.0 * degree; // farther aside the head is in its way
  const double outwards = right ? -1.0 : 1.0;
  const Bounds bounds = bounds_of(setting);
  const Length gap = setting.limits.mirror_gap;
  const physics::PlaneMirror outline = outline_of(sheet);
  const std::vector<physics::Box> bodies = hard_bodies(pose.mouth.mouth());
  double best = 0;
  std::optional<CheekMirror> found;
  Pose tried = pose;
  const bool given =
      setting.mirror && setting.mirror->use == MirrorUse::in_cheek && setting.mirror->opened;
  const Angle first = given ? *setting.mirror->opened : step;
  const Angle last = given ? first : widest;
  for (Angle opened = first; opened <= last; opened += step) {
    tried.mirror.reset();
    // As near to the named teeth as the teeth beside them let it.
    constexpr Length farthest = 14.0 * mm;
    constexpr Length off_step = 2.0 * mm;
    for (Length off; off <= farthest; off += off_step) {
      const Length side = bounds.side() + gap + off;
      const physics::PlaneMirror m = mirror_beside(
          right, {side * outwards, bounds.back + gap, setting.camera.aim.z}, opened, outline);
      if (physics::runs_into(m, bodies)) continue;
      tried.mirror = m;
      break;
    }
    if (!tried.mirror || abs(camera_itself(tried)) > camera_aside) continue;
    if (corner && aside_at(*tried.mirror, corner->back) > corner->side) continue;
    const double seen = worth_of_place(setting, tried);
    // A hair more is no reason to stretch the cheek further.
    if (seen <= best + a_hair) continue;
    best = seen;
    found = CheekMirror{tried, opened};
    if (best + a_hair >= most_worth(setting)) break;
  }
  return found;
}

std::optional<HeldCheekMirror> place_cheek_mirror(const Setting& setting, const Pose& pose) {
  const bool right = setting.camera.azimuth > Angle{};
  const Sheet& sheet = setting.mirror->sheet;
  auto found = search_cheek_mirror(setting, pose, right, sheet);
  if (!found) return std::nullopt;
  const auto& corner = setting.corners.by_mirror;
  constexpr Length usual_back = physics::defaults::corner_back_firm.value * mm;
  const auto at_corner = [&](const CheekMirror& m) {
    return aside_at(*m.pose.mirror, corner ? corner->back : usual_back);
  };
  HeldCheekMirror out{std::move(*found), {}, {}};
  if (corner && at_corner(out.at) > corner->side) {
    auto within = search_cheek_mirror(setting, pose, right, sheet, corner);
    const std::vector<Shown> shown = within ? look_at(setting, within->pose) : std::vector<Shown>{};
    if (within && shows_all(shown)) {
      out.at = std::move(*within);
    } else if (within) {
      out.within = HeldCheekMirror::Within{within->opened, teeth_of(shown, physics::enough_of)};
    }
  }
  out.at_corner = at_corner(out.at);
  return out;
}

std::optional<OtherMirror> cheek_mirror_instead(const Setting& setting, const Pose& pose,
                                                std::span<const Sheet> sheets) {
  if (pose.mirror || !from_side(pose.azimuth)) return std::nullopt;
  const bool right = pose.azimuth > Angle{};
  physics::Vec faces;
  for (const Wanted& w : setting.wanted) {
    const physics::Crown* crown = crown_of(setting.mouth, w.tooth);
    if (crown == nullptr || w.surface != Surface::facial) return std::nullopt;
    faces = faces + crown->facial;
  }
  if (sheets.empty()) return std::nullopt;
  // The camera's image looks square at the teeth, and the mirror takes the retractor's place.
  const physics::MouthState& held = pose.mouth.state();
  Pose other = right ? with_corners(pose, std::nullopt, held.left)
                     : with_corners(pose, held.right, std::nullopt);
  const SquareLook look = square_to(faces);
  other.azimuth = look.azimuth;
  other.axes = look.axes;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const auto found =
        search_cheek_mirror(setting, other, right, sheets[i], setting.corners.by_mirror);
    if (!found) continue;
    if (const auto shown = look_that_is(shows_all, setting, found->pose))
      return OtherMirror{i, least_seen(*shown)};
  }
  return std::nullopt;
}

} // namespace norma::placing
