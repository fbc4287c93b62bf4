// Where a mirror stands in the mouth.
#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "physics/mirror.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

/// What of the surfaces a place of a mirror shows, as a sum of shares of what is turned to the
/// lens.
double shown_there(const Job& job, const Setting& tried) {
  // The lamp in the picture weighs as much as half a tooth.
  constexpr double lamp_weighs = 0.5;
  double seen = shows_lamp(job, tried) ? -lamp_weighs : 0;
  for (const Shown& s : look_at(tried))
    seen += s.facing > 0 ? s.seen / s.facing : 0;
  return seen;
}

/// How far back the surfaces that must show reach.
Length last_back(const Job& job) {
  Said missing;
  Length back;
  if (const auto points = points_of(job, job.view.must_show.get(), missing)) {
    for (const physics::SurfacePoint& p : *points)
      back = std::max(back, p.at.y);
  }
  return back;
}

/// How far to the patient's left an arch mirror moves so that it lies over teeth of one side (one
/// incisor of the other may be named, too); none where both sides must show, or where it is wide
/// enough as it lies.
Length moved_to_one_side(const Job& job, const physics::PlaneMirror& outline) {
  Said missing;
  const auto points = points_of(job, job.view.must_show.get(), missing);
  if (!points || points->empty()) return {};
  Length right = points->front().at.x;
  Length left = right;
  for (const physics::SurfacePoint& p : *points) {
    right = std::min(right, p.at.x);
    left = std::max(left, p.at.x);
  }
  constexpr Length an_incisor = 10.0 * mm;
  constexpr Length alike = 1.0 * mm;
  if (right < -an_incisor && left > an_incisor) return {};
  if (abs(left + right) < alike) return {};
  // The outermost of them stand farthest back, at the end that goes in.
  const Length reach = 0.5 * outline.width - job.limit(physics::defaults::mirror_gap).value() * mm;
  if (left > -right) return std::max(Length{}, left - reach);
  return -std::max(Length{}, -right - reach);
}

/// An arch mirror, opened as the view says.
Said place_arch_mirror(Job& job, Setting& setting, const kit::Mirror& mirror) {
  const auto jaw = shown_jaw(job.view);
  const auto angle = job.facts.get(fact::mirror_angle);
  if (!jaw || !angle) return missing::jaw_shown_in_mirror();
  physics::PlaneMirror outline;
  set_outline(outline, job.view.mirror.get(), mirror);
  setting.mirror = arch_mirror(job, *jaw == model::Jaw::upper, *angle, outline);
  const Length moved = setting.mirror->middle.x;
  if (moved != Length{}) {
    job.facts.derive(fact::mirror_moved, abs(moved), {&fact::mirror, &fact::mirror_angle},
                     Status::assumed);
    job.facts.set(fact::mirror_moved_to, moved > Length{} ? model::Side::left : model::Side::right,
                  Status::assumed);
  }
  return {};
}

/// A mirror between cheek and teeth: upright, its back edge behind the last tooth that must show
/// and clear of its face, opened by `opened` from the midline's direction.
physics::PlaneMirror side_mirror(const Setting& setting, bool right, Length side, Length back,
                                 Angle opened, const model::Mirror& use,
                                 const kit::Mirror& mirror) {
  const double outwards = right ? -1.0 : 1.0;
  physics::PlaneMirror m;
  m.along = {outwards * sin(opened), -cos(opened), 0};
  m.normal = {-outwards * cos(opened), -sin(opened), 0}; // towards the teeth and forwards
  m.across = {0, 0, 1};
  set_outline(m, use, mirror);
  m.middle = physics::Point{side * outwards, back, setting.aim.z} + m.along * (0.5 * m.length);
  return m;
}

/// Azimuth of the camera itself, which looks into the mirror.
Angle camera_itself(const Setting& setting) {
  const physics::Vec f = physics::reflected(setting.axes.forward, setting.mirror->normal);
  return std::atan2(f.x, f.y) * radian;
}

/// Where a round mirror behind the front teeth shows most.
struct Disc {
  Setting setting;
  Length behind;
  Angle below;
};
/// Searched: how far behind them it stands, and from how far below (above, for the lower jaw) the
/// camera looks into it; the first place that shows most.
std::optional<Disc> search_disc(const Job& job, const Setting& setting, Length diameter) {
  const physics::Vec ahead = setting.axes.forward; // of the camera's image: from behind the teeth
  const physics::Boxes bodies(hard_bodies(setting));
  double best = 0;
  std::optional<Disc> found;
  for (Angle below = 10.0 * degree; below <= 60.0 * degree; below += 10.0 * degree) {
    const double up = setting.mouth.of_upper ? 1.0 : -1.0;
    const physics::Vec looks{0, cos(below), up * sin(below)};
    for (Length behind = 0.5 * diameter; behind <= 40.0 * mm; behind += 2.0 * mm) {
      Setting tried = setting;
      physics::PlaneMirror m;
      m.normal = -physics::unit(looks - ahead); // towards the teeth
      m.across = {1, 0, 0};
      m.along = physics::cross(m.normal, m.across);
      m.width = m.narrow_end = m.length = diameter;
      m.corner = 0.5 * diameter;
      m.middle = setting.aim - ahead * behind;
      if (physics::runs_into(m, bodies)) continue;
      tried.mirror = m;
      const double seen = shown_there(job, tried);
      if (seen <= best + 0.05) continue;
      best = seen;
      found = Disc{tried, behind, below};
    }
  }
  return found;
}

Said place_disc(Job& job, Setting& setting, const kit::Mirror& mirror) {
  const auto found = search_disc(job, setting, mirror.width.get());
  if (!found) return missing::mirror_place();
  setting = found->setting;
  job.facts.derive(fact::mirror_behind_teeth, found->behind, {&fact::mirror}, Status::assumed);
  job.facts.derive(fact::camera_below, found->below, {&fact::mirror}, Status::assumed);
  return {};
}

/// How far from the midline it stands, `back` behind the incisors, or at the end next to there.
Length aside_at(const physics::PlaneMirror& m, Length back) {
  const Length way = std::clamp((back - m.middle.y) / m.along.y, -0.5 * m.length, 0.5 * m.length);
  return abs(m.middle.x + way * m.along.x);
}

/// Where a mirror between cheek and teeth shows most, at the least opening.
struct SideMirror {
  Setting setting;
  Angle opened;
};
/// `corner`: no farther aside than this.
std::optional<SideMirror> search_side_mirror(const Job& job, const Setting& setting, bool right,
                                             const model::Mirror& use, const kit::Mirror& mirror,
                                             std::optional<physics::MouthCorner> corner = {}) {
  constexpr Angle widest = 60.0 * degree;
  constexpr Angle step = 2.5 * degree;
  constexpr Angle camera_aside = 60.0 * degree; // farther aside the head is in its way
  Said missing;
  const auto points = points_of(job, job.view.must_show.get(), missing);
  if (!points) return std::nullopt;
  Length side;
  Length back;
  for (const physics::SurfacePoint& p : *points) {
    side = std::max(side, abs(p.at.x));
    back = std::max(back, p.at.y);
  }
  const Length gap = job.limit(physics::defaults::mirror_gap).value() * mm;
  const physics::Boxes bodies(hard_bodies(setting));
  double best = 0;
  std::optional<SideMirror> found;
  for (Angle opened = step; opened <= widest; opened += step) {
    Setting tried = setting;
    // As near to the named teeth as the teeth beside them let it.
    constexpr Length farthest = 14.0 * mm;
    constexpr Length outwards = 2.0 * mm;
    for (Length off; off <= farthest; off += outwards) {
      tried.mirror = side_mirror(setting, right, side + gap + off, back + gap, opened, use, mirror);
      if (!physics::runs_into(*tried.mirror, bodies)) break;
      tried.mirror.reset();
    }
    if (!tried.mirror || abs(camera_itself(tried)) > camera_aside) continue;
    if (corner && aside_at(*tried.mirror, corner->back) > corner->side) continue;
    const double seen = shown_there(job, tried);
    // A hair more is no reason to stretch the cheek further.
    if (seen <= best + 0.05) continue;
    best = seen;
    found = SideMirror{tried, opened};
  }
  return found;
}

/// As far as a mirror may hold the corner of the mouth; nothing where the kit does not say.
std::optional<physics::MouthCorner> farthest_corner(const Job& job) {
  if (job.kit == nullptr) return std::nullopt;
  const kit::Mouths::Corner& own = job.kit->mouths.by_mirror;
  if (!own.aside.known() || !own.back.known()) return std::nullopt;
  return physics::MouthCorner{own.aside.get(), own.back.get()};
}

/// Whether the corner of the mouth gives way so far. Where the kit knows how far it may, and a
/// place within that shows all, the mirror stands there.
void hold_corner(Job& job, SideMirror& found, const Setting& setting, bool right,
                 const kit::Mirror& mirror) {
  const std::vector<const FactRow*> from{&fact::mirror_from_midline};
  const auto corner = farthest_corner(job);
  constexpr Length usual_back = physics::defaults::corner_back_firm.value * mm;
  const auto aside = [&] {
    return aside_at(*found.setting.mirror, corner ? corner->back : usual_back);
  };
  if (!corner) {
    job.open(question::cheek_gives_way, missing::corner_by_mirror());
  } else {
    job.facts.set(fact::corner_by_mirror, corner->side, Status::measured);
    if (aside() > corner->side) {
      const auto within =
          search_side_mirror(job, setting, right, job.view.mirror.get(), mirror, corner);
      const std::vector<Shown> shown = within ? look_at(within->setting) : std::vector<Shown>{};
      if (within && shows_all(shown)) {
        found = *within;
      } else if (within) {
        job.facts.derive(fact::mirror_from_midline_with_room, within->opened,
                         {&fact::corner_by_mirror}, Status::assumed);
        job.facts.set(fact::seen_with_room, teeth_of(shown, enough_of), Status::assumed);
      }
    }
  }
  job.facts.derive(fact::mirror_at_corner, aside(), from, Status::assumed);
}

Said place_side_mirror(Job& job, Setting& setting, const kit::Mirror& mirror) {
  const bool right = *job.facts.get(fact::azimuth) > Angle{};
  auto found = search_side_mirror(job, setting, right, job.view.mirror.get(), mirror);
  if (!found) return missing::mirror_place();
  hold_corner(job, *found, setting, right, mirror);
  setting = found->setting;
  job.facts.derive(fact::mirror_from_midline, found->opened, {&fact::mirror, &fact::azimuth},
                   Status::assumed);
  job.facts.derive(fact::camera_azimuth, camera_itself(setting), {&fact::mirror_from_midline},
                   Status::assumed);
  return {};
}

} // namespace

void set_outline(physics::PlaneMirror& m, const model::Mirror& use, const kit::Mirror& mirror) {
  m.width = mirror.width.get();
  m.narrow_end = mirror.narrow_end.value_or(m.width);
  if (use.end == "small end") std::swap(m.width, m.narrow_end);
  m.length = mirror.length.get();
  if (mirror.outline.known() && mirror.outline.get() == kit::MirrorOutline::two_ends) {
    m.narrow_end = m.width;
    m.length = 0.5 * m.length; // the other end lies outside of the mouth
  }
  const bool round_corners =
      mirror.outline.known() && (mirror.outline.get() == kit::MirrorOutline::rounded ||
                                 mirror.outline.get() == kit::MirrorOutline::two_ends);
  if (round_corners) {
    const Length least = std::min({m.width, m.narrow_end, m.length});
    m.corner = std::min(0.5 * least,
                        mirror.corner.value_or(physics::defaults::mirror_corner.value * m.width));
  }
}

std::optional<Setting> with_mirror(const Job& job, const Setting& setting,
                                   const kit::Mirror& mirror) {
  Setting bare = setting;
  bare.mirror.reset();
  const model::Mirror& use = job.view.mirror.get();
  switch (use.use) {
  case model::MirrorUse::occlusal: {
    physics::PlaneMirror outline;
    set_outline(outline, use, mirror);
    bare.mirror =
        arch_mirror(job, setting.mouth.of_upper, *job.facts.get(fact::mirror_angle), outline);
    return bare;
  }
  case model::MirrorUse::buccal: {
    const bool right = *job.facts.get(fact::azimuth) > Angle{};
    const auto found = search_side_mirror(job, bare, right, use, mirror);
    return found ? std::optional(found->setting) : std::nullopt;
  }
  case model::MirrorUse::disc: {
    const auto found = search_disc(job, bare, mirror.width.get());
    return found ? std::optional(found->setting) : std::nullopt;
  }
  case model::MirrorUse::lingual: break; // searched where it is placed
  }
  return std::nullopt;
}

kit::Mirror scaled(const kit::Mirror& mirror, double scale) {
  kit::Mirror other = mirror;
  for (auto* size : {&other.width, &other.narrow_end, &other.corner}) {
    if (size->known()) *size = {size->get() * scale, size->span()};
  }
  return other;
}

std::vector<physics::Box> hard_bodies(const Setting& setting) {
  std::vector<physics::Box> out;
  const physics::Mouth mouth = physics::make_mouth(setting.mouth);
  std::copy_if(mouth.boxes.begin(), mouth.boxes.end(), std::back_inserter(out),
               [](const physics::Box& b) {
                 return b.body == physics::Body::crown || b.body == physics::Body::gum;
               });
  return out;
}

Length mirror_behind(const Job& job) {
  return last_back(job) + job.limit(physics::defaults::mirror_gap).value() * mm;
}

physics::PlaneMirror arch_mirror(const Job& job, bool upper, Angle opened,
                                 const physics::PlaneMirror& outline) {
  physics::PlaneMirror m = outline;
  const physics::Vec normal = physics::arch_mirror_normal(upper, opened);
  m.normal = normal.y > 0 ? -normal : normal; // towards the teeth, which stand in front of it
  m.across = {1, 0, 0};
  m.along = {0, -cos(opened), upper ? -sin(opened) : sin(opened)};
  m.middle = physics::Point{moved_to_one_side(job, outline), mirror_behind(job), Length{}} +
             m.along * (0.5 * m.length);
  return m;
}

Setting opened_otherwise(const Job& job, const Setting& setting, Angle opened) {
  Setting other = setting;
  other.mirror = arch_mirror(job, setting.mouth.of_upper, opened, *setting.mirror);
  if (job.view.camera.known() && job.view.camera->elevation != Angle{}) {
    const physics::Axes camera = physics::in_mirror(setting.axes, setting.mirror->normal);
    other.axes = physics::in_mirror(camera, other.mirror->normal);
  }
  return other;
}

std::optional<Angle> nearest_good_angle(const Job& job, const Setting& setting,
                                        const std::function<bool(const Setting&)>& good) {
  constexpr Angle flattest = 20.0 * degree;
  constexpr Angle steepest = 70.0 * degree;
  const Angle given = *job.facts.get(fact::mirror_angle);
  const auto opening = job.facts.get(fact::mouth_opening);
  for (Angle off = angle_step; off <= steepest; off += angle_step) {
    for (const Angle a : {given + off, given - off}) {
      if (a < flattest || a > steepest) continue;
      const Setting other = opened_otherwise(job, setting, a);
      if ((!opening || clears(other, *opening)) && good(other)) return a;
    }
  }
  return std::nullopt;
}

Said place_mirror(Job& job, Setting& setting) {
  if (!job.view.mirror.known()) return missing::which_mirror();
  const model::MirrorUse use = job.view.mirror->use;
  const kit::Mirror* mirror = job.out.chosen.mirror;
  if (mirror == nullptr) return missing::mirror_of_kit();
  if (!mirror->width.known()) return missing::mirror_width();
  if (use != model::MirrorUse::disc && !mirror->length.known()) return missing::mirror_length();
  const bool two_ends =
      mirror->outline.known() && mirror->outline.get() == kit::MirrorOutline::two_ends;
  if (two_ends && job.view.mirror->end == "small end" && !mirror->narrow_end.known())
    return missing::narrow_end();
  switch (use) {
  case model::MirrorUse::occlusal: return place_arch_mirror(job, setting, *mirror);
  case model::MirrorUse::buccal: return place_side_mirror(job, setting, *mirror);
  case model::MirrorUse::disc: return place_disc(job, setting, *mirror);
  case model::MirrorUse::lingual: return place_lingual_mirror(job, setting, *mirror);
  }
  return missing::which_mirror();
}

void try_side_mirror(Job& job, const Setting& setting) {
  if (job.kit == nullptr || setting.mirror || !from_side(setting.azimuth)) return;
  const bool right = setting.azimuth > Angle{};
  physics::Vec mean;
  for (const physics::Wanted& w : setting.wanted) {
    const physics::Crown* crown = crown_of(job, w.tooth);
    if (crown == nullptr || w.surface != physics::Surface::facial) return;
    mean = mean + crown->facial;
  }
  Setting other = setting;
  // The camera's image looks square at the teeth, and the mirror takes the retractor's place.
  other.azimuth = std::atan2(-mean.x, -mean.y) * radian;
  other.axes = physics::camera_axes(other.azimuth, Angle{}, Angle{});
  other.axes.right = -other.axes.right;
  (right ? other.mouth.right : other.mouth.left).reset();
  int most = 4; // mirrors that are tried, whatever the kit holds
  for (const kit::Mirror& m : job.kit->mirrors) {
    if (!m.kind.known() || m.kind.get() != kit::MirrorKind::buccal) continue;
    if (!m.width.known() || !m.length.known()) continue;
    if (most-- == 0) return;
    const auto found =
        search_side_mirror(job, other, right, model::Mirror{}, m, farthest_corner(job));
    if (!found) continue;
    if (!shows_all(look_at(found->setting))) continue;
    if (const auto corner = farthest_corner(job))
      job.facts.set(fact::corner_by_mirror, corner->side, Status::measured);
    job.facts.set(fact::mirror_that_shows,
                  m.name.known() ? Said(m.name.get()) : phrase::buccal_mirror(), Status::assumed);
    return;
  }
}

} // namespace norma::plan
