// A mirror between the tongue and the back teeth, leant over and led out over the front teeth.
#include <algorithm>

#include "physics/mirror.hpp"
#include "plan/scene.hpp"

namespace norma::plan {
namespace {

/// How such a mirror stands.
struct Stand {
  Angle azimuth; // of the camera that looks into it
  Angle above;   // the same: over the biting plane of a lower jaw, under that of an upper one
  Angle rise;    // its length leaves the mouth away from the jaw by this
  Length off;    // from the middle of what is shown
  double shift;  // across, as a share of the room that it has while it shows all: -1 to 1
};

using Points = std::vector<physics::SurfacePoint>;

/// `beyond`: what the mirror reaches beyond the last that it shows.
physics::PlaneMirror standing_so(const Setting& setting, const Stand& stand, const Points& shown,
                                 Length beyond, const physics::PlaneMirror& outline) {
  const double up = setting.mouth.of_upper ? -1.0 : 1.0;
  const physics::Vec looks{sin(stand.azimuth) * cos(stand.above),
                           cos(stand.azimuth) * cos(stand.above), -up * sin(stand.above)};
  const physics::Vec ahead = setting.axes.forward; // of the camera's image: from the tongue
  physics::PlaneMirror m = outline;
  m.normal = physics::unit(ahead - looks); // towards teeth and lens
  const physics::Vec out{0, -cos(stand.rise), up * sin(stand.rise)};
  m.along = physics::unit(out - m.normal * physics::dot(out, m.normal));
  m.across = physics::cross(m.normal, m.along);
  const physics::Point on = setting.aim - ahead * stand.off;
  // Where the ways from what must show to the lens's image cross it.
  const physics::Point image = setting.aim - ahead * setting.pupil_distance;
  Length deepest, least, most;
  bool first = true;
  for (const physics::SurfacePoint& p : shown) {
    const Length before = physics::along(p.at - on, m.normal);
    const Length behind = physics::along(on - image, m.normal);
    const double share = before / (before + behind);
    const physics::Point way_to_lens = image - p.at;
    const physics::Point crossing =
        p.at + physics::Point{share * way_to_lens.x, share * way_to_lens.y, share * way_to_lens.z};
    const Length way = physics::along(crossing - on, m.along);
    const Length side = physics::along(crossing - on, m.across);
    deepest = first ? way : std::min(deepest, way);
    least = first ? side : std::min(least, side);
    most = first ? side : std::max(most, side);
    first = false;
  }
  // Its far end a little beyond the deepest of them.
  const Length room = std::max(Length{}, 0.5 * (m.width - (most - least)) - beyond);
  m.middle = on + m.along * (deepest - beyond + 0.5 * m.length) +
             m.across * (0.5 * (least + most) + stand.shift * room);
  return m;
}

struct Place {
  Setting setting;
  Stand stand;
  double seen = 0; // sum of the shares of what is turned to the lens
  bool all = false;
};

/// The nearest place to the teeth, level first, that is clear of teeth and gum.
std::optional<Place> clear_place(const Setting& setting, Angle azimuth, Angle above,
                                 const Points& shown, Length beyond,
                                 const physics::PlaneMirror& outline,
                                 const std::vector<physics::Box>& bodies) {
  constexpr Angle steepest = 60.0 * degree;
  constexpr Angle rise_step = 10.0 * degree;
  constexpr Length nearest = 6.0 * mm;
  constexpr Length farthest = 24.0 * mm;
  constexpr Length off_step = 2.0 * mm;
  for (Angle rise; rise <= steepest; rise += rise_step) {
    for (Length off = nearest; off <= farthest; off += off_step) {
      for (const double shift : {0.0, 1.0, -1.0}) {
        const Stand stand{azimuth, above, rise, off, shift};
        const physics::PlaneMirror m = standing_so(setting, stand, shown, beyond, outline);
        if (m.along.y > -1e-3 || physics::runs_into(m, bodies)) continue;
        Place place{setting, stand};
        place.setting.mirror = m;
        return place;
      }
    }
  }
  return std::nullopt;
}

/// Where a mirror of this outline shows most; nothing where it goes nowhere.
std::optional<Place> search(const Job& job, const Setting& setting, const Points& shown,
                            Length beyond, const physics::PlaneMirror& outline,
                            const std::vector<physics::Box>& bodies) {
  std::optional<Place> best;
  // Towards the side of the teeth first, so that both sides of the mouth come out alike.
  const double side = setting.axes.forward.x < 0 ? 1.0 : -1.0;
  for (const double above : {0.0, 20.0, 40.0, 60.0}) {
    for (const double azimuth : {0.0, 20.0, -20.0, 40.0, -40.0}) {
      auto place = clear_place(setting, side * azimuth * degree, above * degree, shown, beyond,
                               outline, bodies);
      if (!place) continue;
      place->all = true;
      // The lamp in the picture weighs as much as half a tooth.
      if (shows_lamp(job, place->setting)) place->seen = -0.5;
      for (const Shown& s : look_at(place->setting)) {
        place->seen += s.facing > 0 ? s.seen / s.facing : 0;
        place->all = place->all && s.enough_seen;
      }
      // A hair more is no reason to turn further.
      if (best && place->seen <= best->seen + 0.05) continue;
      best = std::move(place);
    }
  }
  return best;
}

} // namespace

std::string place_lingual_mirror(Job& job, Setting& setting, const kit::Mirror& mirror) {
  std::vector<physics::Box> bodies = hard_bodies(setting);
  for (const physics::Box& b : physics::palate_and_floor(setting.mouth))
    bodies.push_back(b);
  std::string missing;
  const auto points = points_of(job, job.view.must_show.get(), missing);
  if (!points) return missing;
  const Length beyond = job.limit(physics::defaults::mirror_gap).value * mm;
  physics::PlaneMirror outline;
  set_outline(outline, job.view.mirror.get(), mirror);
  const auto found = search(job, setting, *points, beyond, outline, bodies);
  const std::vector<const FactRow*> from{&fact::mirror, &fact::azimuth, &fact::mouth_opening};
  if (!found || !found->all) {
    constexpr Length narrower = 4.0 * mm;
    constexpr Length narrowest = 14.0 * mm;
    job.facts.set(fact::mirror_width, outline.width, Status::measured, {&fact::mirror});
    for (Length width = outline.width - narrower; width >= narrowest; width -= narrower) {
      physics::PlaneMirror other = outline;
      other.width = width;
      other.narrow_end = std::min(other.narrow_end, width);
      other.corner = outline.corner * (width / outline.width);
      const auto place = search(job, setting, *points, beyond, other, bodies);
      if (!place || !place->all) continue;
      job.facts.derive(fact::mirror_width_that_fits, width, from, Status::assumed);
      break;
    }
  }
  if (!found || found->seen <= 0) {
    job.facts.derive(fact::mirror_no_place, std::string("between tongue and teeth"), from,
                     Status::assumed);
    return "a place for the mirror in which it shows the teeth";
  }
  setting = found->setting;
  job.facts.derive(fact::camera_azimuth, found->stand.azimuth, from, Status::assumed);
  job.facts.derive(fact::camera_below, found->stand.above, from, Status::assumed);
  job.facts.derive(fact::mirror_rise, found->stand.rise, from, Status::assumed);
  job.facts.derive(fact::mirror_off_teeth, found->stand.off, from, Status::assumed);
  return {};
}

} // namespace norma::plan
