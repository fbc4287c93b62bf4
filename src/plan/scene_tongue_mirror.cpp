// A mirror between the tongue and the back teeth, leant over and led out over the front teeth.
#include <algorithm>
#include <cmath>

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
  const Length room = std::max(Length{}, 0.5 * (m.width - (most - least)));
  m.middle = on + m.along * (deepest - beyond + 0.5 * m.length) +
             m.across * (0.5 * (least + most) + stand.shift * room);
  return m;
}

/// By how much the camera is turned about its axis, anticlockwise for who holds it, where the
/// picture lies as the setting has it.
Angle turn_of_camera(const Setting& setting, const Stand& stand) {
  const double up = setting.mouth.of_upper ? -1.0 : 1.0;
  const physics::Axes level = physics::camera_axes(stand.azimuth, up * stand.above, Angle{});
  const physics::Axes held = physics::in_mirror(setting.axes, setting.mirror->normal);
  return std::atan2(physics::dot(held.right, level.up), physics::dot(held.right, level.right)) *
         radian;
}

struct Place {
  Setting setting;
  Stand stand;
  double seen = 0; // sum of the shares of what is turned to the lens
  bool all = false;
  bool lamp = false; // in the picture
  Angle turn;        // of the camera about its axis, anticlockwise for who holds it

  [[nodiscard]] bool better_than(const Place& other) const {
    const auto rank = [](const Place& p) { return p.all ? (p.lamp ? 1 : 2) : 0; };
    if (rank(*this) != rank(other)) return rank(*this) > rank(other);
    // The lamp in the picture, or a camera turned by 30 degrees, weighs as much as half a tooth; a
    // hair more is no reason to look from farther round.
    const auto worth = [](const Place& p) {
      return p.seen - (p.lamp ? 0.5 : 0.0) - abs(p.turn) / (60.0 * degree);
    };
    return worth(*this) > worth(other) + 0.05;
  }
};

/// One mirror, and what it has to show.
struct Search {
  const Job& job;
  const Setting& setting;
  const Points& shown;
  Length beyond;
  const physics::Boxes bodies; // what it has to keep clear of

  /// The mirror so far off the teeth, moved across until it is clear of teeth and gum.
  [[nodiscard]] std::optional<Place> clear_place(Stand stand,
                                                 const physics::PlaneMirror& outline) const {
    for (const double shift : {0.0, 0.5, -0.5, 1.0, -1.0}) {
      stand.shift = side() * shift; // the same way first on either side of the mouth
      const physics::PlaneMirror m = standing_so(setting, stand, shown, beyond, outline);
      if (m.along.y > -1e-3 || physics::runs_into(m, bodies)) continue;
      Place place;
      place.setting = setting;
      place.stand = stand;
      place.setting.mirror = m;
      return place;
    }
    return std::nullopt;
  }

  void judge(Place& place) const {
    place.all = true;
    place.turn = turn_of_camera(place.setting, place.stand);
    place.lamp = shows_lamp(job, place.setting);
    for (const Shown& s : look_at(place.setting)) {
      place.seen += s.facing > 0 ? s.seen / s.facing : 0;
      place.all = place.all && s.enough_seen;
    }
  }

  /// Where a mirror of this outline shows all, or else most; nothing where it goes nowhere. Level
  /// and near the teeth first; `thorough`: steeper and farther places, too, where one is clear.
  [[nodiscard]] std::optional<Place> best_place(const physics::PlaneMirror& outline,
                                                bool thorough) const {
    constexpr Angle steepest = 60.0 * degree;
    constexpr Angle rise_step = 10.0 * degree;
    std::optional<Place> best;
    for (const double above : {0.0, 20.0, 40.0, 60.0}) {
      for (const double azimuth : {0.0, 20.0, -20.0, 40.0, -40.0}) {
        for (Angle rise; rise <= steepest; rise += rise_step) {
          const Stand stand{side() * azimuth * degree, above * degree, rise, {}, 0};
          const int clear = look_along(stand, outline, thorough ? 3 : 1, best);
          if (clear > 0 && (!thorough || whole(*best))) break;
        }
      }
      if (best && whole(*best)) break; // from higher up the camera would be turned further
    }
    return best;
  }

 private:
  /// Looks at the nearest `most` places so; how many there are. Keeps the best.
  int look_along(Stand stand, const physics::PlaneMirror& outline, int most,
                 std::optional<Place>& best) const {
    constexpr Length nearest = 6.0 * mm;
    constexpr Length farthest = 24.0 * mm;
    constexpr Length off_step = 2.0 * mm;
    int clear = 0;
    for (stand.off = nearest; stand.off <= farthest && clear < most; stand.off += off_step) {
      auto place = clear_place(stand, outline);
      if (!place) continue;
      ++clear;
      judge(*place);
      if (!best || place->better_than(*best)) best = std::move(place);
      if (whole(*best)) break;
    }
    return clear;
  }
  [[nodiscard]] bool whole(const Place& place) const {
    constexpr double nearly = 0.95;
    return place.all && !place.lamp &&
           place.seen >= nearly * static_cast<double>(setting.wanted.size());
  }
  /// Towards the side of the teeth first, so that both sides of the mouth come out alike.
  [[nodiscard]] double side() const { return setting.axes.forward.x < 0 ? 1.0 : -1.0; }
};

/// The nearest width to the kit's at which all are seen; none wider where not even this one goes
/// in.
std::optional<Length> width_that_fits(const Search& search, const physics::PlaneMirror& outline,
                                      bool goes_in) {
  constexpr Length step = 4.0 * mm;
  constexpr Length narrowest = 14.0 * mm;
  constexpr Length widest = 60.0 * mm;
  const auto shows_all = [&](Length width) {
    physics::PlaneMirror other = outline;
    other.width = width;
    other.narrow_end = std::min(other.narrow_end, width);
    other.corner = outline.corner * (width / outline.width);
    const auto place = search.best_place(other, false);
    return place && place->all;
  };
  for (Length off = step; off <= widest; off += step) {
    if (outline.width - off >= narrowest && shows_all(outline.width - off))
      return outline.width - off;
    constexpr Length most_wider = 20.0 * mm;
    if (goes_in && off <= most_wider && shows_all(outline.width + off)) return outline.width + off;
  }
  return std::nullopt;
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
  const Search search{job, setting, *points, beyond, physics::Boxes(bodies)};
  const auto found = search.best_place(outline, true);
  const std::vector<const FactRow*> from{&fact::mirror, &fact::azimuth, &fact::mouth_opening};
  if (!found || !found->all) {
    job.facts.set(fact::mirror_width, outline.width, Status::measured, {&fact::mirror});
    if (const auto width = width_that_fits(search, outline, found && found->seen > 0))
      job.facts.derive(fact::mirror_width_that_fits, *width, from, Status::assumed);
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
  job.facts.derive(fact::camera_turn, found->turn, from, Status::assumed);
  return {};
}

} // namespace norma::plan
