// A mirror between the tongue and the back teeth, leant over and led out over the front teeth.
#include <algorithm>
#include <array>
#include <cmath>

#include "physics/mirror.hpp"
#include "physics/scene/sheet_room.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

/// How such a mirror stands.
struct Stand {
  Angle azimuth; // of the camera that looks into it
  Angle above;   // the same: over the biting plane of a lower jaw, under that of an upper one
  Angle rise;    // its length leaves the mouth away from the jaw by this
  Length off;    // from the middle of what is shown
};

using Points = std::vector<physics::SurfacePoint>;

/// Lines across a mirror, less one, on which it is held against bodies: a millimetre apart.
std::size_t lines_of(Length length) { return static_cast<std::size_t>(std::ceil(length.in(mm))); }

double up_in(const Setting& setting) { return setting.mouth.of_upper ? -1.0 : 1.0; }

/// By how much the camera is turned about its axis, anticlockwise for who holds it, where the
/// picture lies as the setting has it.
Angle turn_of_camera(const Setting& setting, const Stand& stand) {
  const physics::Axes level =
      physics::camera_axes(stand.azimuth, up_in(setting) * stand.above, Angle{});
  const physics::Axes held = physics::in_mirror(setting.axes, setting.mirror->normal);
  return std::atan2(physics::dot(held.right, level.up), physics::dot(held.right, level.right)) *
         radian;
}

/// Where a way from a surface to the lens crosses a plane.
struct Crossing {
  Length way;  // along the mirror
  Length side; // across it
};

/// A plane in which a mirror may lie, whatever its width, and what it meets there.
struct Plane {
  physics::Point on;
  Length far_end;     // along it, from `on`: where the mirror begins
  Length least, most; // across it: where the ways from what must show to the lens's image cross it
  physics::SheetRoom::Section section;
  /// Of each surface, what is turned to the lens; worked out when it is asked for.
  std::vector<std::vector<Crossing>> crossings;
  /// Would an endless mirror show all? What stands in the way does so whatever the width.
  std::optional<bool> nothing_hides;
};

/// All planes of one direction, nearest to the teeth first.
class Direction {
 public:
  static constexpr Length nearest = 6.0 * mm;
  static constexpr Length farthest = 24.0 * mm;
  static constexpr Length off_step = 2.0 * mm;

  /// Nothing where the mirror would not lead out of the mouth.
  static std::optional<Direction> of(const Setting& setting, const Stand& stand,
                                     std::span<const physics::Box> bodies) {
    const double up = up_in(setting);
    const physics::Vec looks{sin(stand.azimuth) * cos(stand.above),
                             cos(stand.azimuth) * cos(stand.above), -up * sin(stand.above)};
    constexpr double none = 1e-3;
    const physics::Vec face = setting.axes.forward - looks; // towards teeth and lens
    if (physics::norm(face) < none) return std::nullopt;
    const physics::Vec normal = physics::unit(face);
    const physics::Vec out{0, -cos(stand.rise), up * sin(stand.rise)};
    const physics::Vec in_plane = out - normal * physics::dot(out, normal);
    if (physics::norm(in_plane) < none || physics::unit(in_plane).y > -none) return std::nullopt;
    return Direction(stand, normal, physics::unit(in_plane), bodies);
  }

  /// The plane `off` the middle of what is shown, `step` times the step; nothing beyond the last.
  std::optional<Plane>& plane(const Setting& setting, const Points& shown, Length beyond,
                              Length length, std::size_t step) {
    if (planes_.size() <= step)
      planes_.push_back(make_plane(setting, shown, beyond, length, off_at(step)));
    return planes_[step];
  }
  [[nodiscard]] Crossing crossing(const Setting& setting, const Plane& plane,
                                  const physics::SurfacePoint& p) const;
  static Length off_at(std::size_t step) { return nearest + static_cast<double>(step) * off_step; }

  Stand stand;
  physics::Vec normal, along, across;

 private:
  Direction(const Stand& s, physics::Vec n, physics::Vec a, std::span<const physics::Box> bodies)
      : stand(s), normal(n), along(a), across(physics::cross(n, a)),
        room_(bodies, normal, along, across) {}
  [[nodiscard]] std::optional<Plane> make_plane(const Setting& setting, const Points& shown,
                                                Length beyond, Length length, Length off) const;
  physics::SheetRoom room_;
  std::vector<std::optional<Plane>> planes_;
};

Crossing Direction::crossing(const Setting& setting, const Plane& plane,
                             const physics::SurfacePoint& p) const {
  const physics::Point image = setting.aim - setting.axes.forward * setting.pupil_distance;
  const Length before = physics::along(p.at - plane.on, normal);
  const Length behind = physics::along(plane.on - image, normal);
  const double share = before / (before + behind);
  const physics::Point way_to_lens = image - p.at;
  const physics::Point at =
      p.at + physics::Point{share * way_to_lens.x, share * way_to_lens.y, share * way_to_lens.z};
  return {physics::along(at - plane.on, along), physics::along(at - plane.on, across)};
}

std::optional<Plane> Direction::make_plane(const Setting& setting, const Points& shown,
                                           Length beyond, Length length, Length off) const {
  const physics::Vec ahead = setting.axes.forward; // of the camera's image: from the tongue
  Plane plane;
  plane.on = setting.aim - ahead * off;
  const physics::Point image = setting.aim - ahead * setting.pupil_distance;
  if (shown.empty() || physics::along(plane.on - image, normal) <= Length{}) return std::nullopt;
  Length deepest;
  for (const physics::SurfacePoint& p : shown) {
    if (physics::along(p.at - plane.on, normal) <= Length{}) return std::nullopt; // behind it
    const Crossing c = crossing(setting, plane, p);
    const bool first = &p == &shown.front();
    deepest = first ? c.way : std::min(deepest, c.way);
    plane.least = first ? c.side : std::min(plane.least, c.side);
    plane.most = first ? c.side : std::max(plane.most, c.side);
  }
  // Its far end a little beyond the deepest of them.
  plane.far_end = deepest - beyond;
  const std::size_t lines = lines_of(length);
  plane.section =
      room_.section(plane.on, plane.far_end, lines + 1, length / static_cast<double>(lines));
  return plane;
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

/// A mirror's place for one view, searched among the nearest three clear planes of each direction.
/// What is worked out of a direction holds for every width.
class Search {
 public:
  Search(const Job& job, const Setting& setting, const Points& shown, Length beyond, Length length,
         std::span<const physics::Box> bodies)
      : job_(job), setting_(setting), shown_(shown), beyond_(beyond), length_(length),
        bodies_(bodies), directions_(above.size() * azimuths.size() * rises) {}

  /// Where a mirror of this outline shows all, or else most; nothing where it goes nowhere. Level
  /// and near the teeth first.
  [[nodiscard]] std::optional<Place> best_place(const physics::PlaneMirror& outline) {
    std::optional<Place> best;
    const auto look = [&](Direction& direction, const Plane&, Length off,
                          const physics::PlaneMirror& mirror) {
      Place place = judged(direction, off, mirror);
      if (!best || place.better_than(*best)) best = std::move(place);
      return whole(*best);
    };
    const std::vector<Length> half = half_widths(outline);
    for (std::size_t a = 0; a < above.size(); ++a) {
      for (std::size_t z = 0; z < azimuths.size(); ++z) {
        for (std::size_t r = 0; r < rises; ++r) {
          if (each_clear(a, z, r, outline, half, look)) break;
        }
      }
      if (best && whole(*best)) break; // from higher up the camera would be turned further
    }
    return best;
  }

  /// Is there a place, among those that best_place looks at, where it shows all?
  [[nodiscard]] bool shows_all_somewhere(const physics::PlaneMirror& outline) {
    const std::vector<Length> half = half_widths(outline);
    const auto look = [&](Direction& direction, Plane& plane, Length off,
                          const physics::PlaneMirror& mirror) {
      return holds(direction, plane, mirror) && nothing_hides(plane, mirror) &&
             judged(direction, off, mirror).all;
    };
    for (std::size_t a = 0; a < above.size(); ++a) {
      for (std::size_t z = 0; z < azimuths.size(); ++z) {
        for (std::size_t r = 0; r < rises; ++r) {
          if (each_clear(a, z, r, outline, half, look)) return true;
        }
      }
    }
    return false;
  }

 private:
  static constexpr std::array above{0.0, 20.0, 40.0, 60.0};
  static constexpr std::array azimuths{0.0, 20.0, -20.0, 40.0, -40.0};
  static constexpr std::size_t rises = 7; // 0 to 60 degrees

  /// The direction of these numbers; nothing where a mirror would not lead out of the mouth.
  std::optional<Direction>& direction(std::size_t a, std::size_t z, std::size_t r) {
    constexpr Angle rise_step = 10.0 * degree;
    std::optional<std::optional<Direction>>& known =
        directions_[(a * azimuths.size() + z) * rises + r];
    if (!known) {
      const Stand stand{
          side() * azimuths[z] * degree, above[a] * degree, static_cast<double>(r) * rise_step, {}};
      known = Direction::of(setting_, stand, bodies_);
    }
    return *known;
  }
  /// Calls `look` for the mirror in the nearest three clear planes, until it answers yes.
  template <class Look>
  bool each_clear(std::size_t a, std::size_t z, std::size_t r, const physics::PlaneMirror& outline,
                  std::span<const Length> half, Look look) {
    constexpr int most = 3;
    auto& towards = direction(a, z, r);
    if (!towards) return false;
    int clear = 0;
    for (std::size_t step = 0; Direction::off_at(step) <= Direction::farthest && clear < most;
         ++step) {
      auto& plane = towards->plane(setting_, shown_, beyond_, length_, step);
      if (!plane) continue;
      const auto mirror = clear_in(*towards, *plane, outline, half);
      if (!mirror) continue;
      ++clear;
      if (look(*towards, *plane, Direction::off_at(step), *mirror)) return true;
    }
    return false;
  }
  /// Of the outline, on each line across it from its far end on.
  [[nodiscard]] std::vector<Length> half_widths(const physics::PlaneMirror& outline) const {
    const std::size_t lines = lines_of(length_);
    std::vector<Length> half;
    for (std::size_t i = 0; i <= lines; ++i) {
      const double share = static_cast<double>(i) / static_cast<double>(lines) - 0.5;
      half.push_back(outline.half_width(share * length_).value_or(Length{}));
    }
    return half;
  }
  /// The mirror in a plane, moved across as little as keeps it clear of all that it may meet.
  [[nodiscard]] std::optional<physics::PlaneMirror> clear_in(const Direction& direction,
                                                             const Plane& plane,
                                                             const physics::PlaneMirror& outline,
                                                             std::span<const Length> half) const {
    constexpr Length hair = 0.1 * mm;
    const Length room = std::max(Length{}, 0.5 * (outline.width - (plane.most - plane.least)));
    const auto middle = physics::nearest_free(plane.section, half, 0.5 * (plane.least + plane.most),
                                              room, hair, side());
    if (!middle) return std::nullopt;
    physics::PlaneMirror m = outline;
    m.normal = direction.normal;
    m.along = direction.along;
    m.across = direction.across;
    m.middle = plane.on + m.along * (plane.far_end + 0.5 * length_) + m.across * *middle;
    return m;
  }
  /// Does the outline hold enough of each surface? Sooner answered than what a look would say.
  [[nodiscard]] bool holds(const Direction& direction, Plane& plane,
                           const physics::PlaneMirror& mirror) const {
    if (plane.crossings.empty()) {
      const physics::Point image = setting_.aim - setting_.axes.forward * setting_.pupil_distance;
      for (const physics::Wanted& w : setting_.wanted) {
        const physics::Crown* crown = crown_of(job_, w.tooth);
        auto& of_surface = plane.crossings.emplace_back();
        if (crown == nullptr) continue;
        for (const physics::SurfacePoint& p : job_.anatomy->surface(*crown, w.surface)) {
          if (physics::along(image - p.at, p.normal) > Length{})
            of_surface.push_back(direction.crossing(setting_, plane, p));
        }
      }
    }
    const Length way = physics::along(mirror.middle - plane.on, mirror.along);
    const Length side = physics::along(mirror.middle - plane.on, mirror.across);
    return std::all_of(plane.crossings.begin(), plane.crossings.end(), [&](const auto& of) {
      const auto in = std::count_if(of.begin(), of.end(), [&](const Crossing& c) {
        const auto half = mirror.half_width(c.way - way);
        return half && abs(c.side - side) <= *half;
      });
      // One more may lie on the edge: a look decides.
      return static_cast<double>(in) + 1 >= setting_.mirror_share * static_cast<double>(of.size());
    });
  }
  [[nodiscard]] bool nothing_hides(Plane& plane, const physics::PlaneMirror& mirror) const {
    if (!plane.nothing_hides) {
      constexpr Length endless = 1.0 * metre;
      Setting open = setting_;
      open.mirror = mirror;
      open.mirror->width = open.mirror->narrow_end = open.mirror->length = endless;
      open.mirror->corner = {};
      plane.nothing_hides = shows_all(look_at(open));
    }
    return *plane.nothing_hides;
  }
  [[nodiscard]] Place judged(const Direction& direction, Length off,
                             const physics::PlaneMirror& mirror) const {
    Place place;
    place.setting = setting_;
    place.setting.mirror = mirror;
    place.stand = direction.stand;
    place.stand.off = off;
    place.turn = turn_of_camera(place.setting, place.stand);
    place.lamp = shows_lamp(job_, place.setting);
    const std::vector<Shown> shown = look_at(place.setting);
    place.all = shows_all(shown);
    for (const Shown& s : shown)
      place.seen += s.facing > 0 ? s.seen / s.facing : 0;
    return place;
  }
  [[nodiscard]] bool whole(const Place& place) const {
    constexpr double nearly = 0.95;
    return place.all && !place.lamp &&
           place.seen >= nearly * static_cast<double>(setting_.wanted.size());
  }
  /// Towards the side of the teeth first, so that both sides of the mouth come out alike.
  [[nodiscard]] double side() const { return setting_.axes.forward.x < 0 ? 1.0 : -1.0; }

  const Job& job_;
  const Setting& setting_;
  const Points& shown_;
  Length beyond_;
  Length length_;
  std::span<const physics::Box> bodies_;
  std::vector<std::optional<std::optional<Direction>>> directions_; // not asked for: nothing
};

/// The nearest width to `own`, the kit's, at which a mirror of its shape shows all; none wider
/// where not even this one goes in.
std::optional<Length> width_that_fits(Search& search, const model::Mirror& use,
                                      const kit::Mirror& mirror, Length own, bool goes_in) {
  constexpr Length step = 2.0 * mm;
  constexpr Length narrowest = 14.0 * mm;
  constexpr Length most_narrower = 60.0 * mm;
  constexpr Length most_wider = 20.0 * mm;
  const auto fits = [&](Length width) {
    physics::PlaneMirror other;
    set_outline(other, use, scaled(mirror, width / own));
    return search.shows_all_somewhere(other);
  };
  for (Length off = step; off <= most_narrower; off += step) {
    if (own - off >= narrowest && fits(own - off)) return own - off;
    if (goes_in && off <= most_wider && fits(own + off)) return own + off;
  }
  return std::nullopt;
}

} // namespace

Said place_lingual_mirror(Job& job, Setting& setting, const kit::Mirror& mirror) {
  // Lips and cheeks, too: it leads out between them as they are held.
  std::vector<physics::Box> bodies = physics::make_mouth(setting.mouth).boxes;
  for (const physics::Box& b : physics::palate_and_floor(setting.mouth))
    bodies.push_back(b);
  Said missing;
  const auto points = points_of(job, job.view.must_show.get(), missing);
  if (!points) return missing;
  const Length beyond = job.limit(physics::defaults::mirror_gap).value() * mm;
  physics::PlaneMirror outline;
  set_outline(outline, job.view.mirror.get(), mirror);
  Search search(job, setting, *points, beyond, outline.length, bodies);
  const auto found = search.best_place(outline);
  const std::vector<const FactRow*> from{&fact::mirror, &fact::azimuth, &fact::mouth_opening};
  if (!found || !found->all) {
    job.facts.set(fact::mirror_width, outline.width, Status::measured, {&fact::mirror});
    if (const auto width = width_that_fits(search, job.view.mirror.get(), mirror, outline.width,
                                           found && found->seen > 0))
      job.facts.derive(fact::mirror_width_that_fits, *width, from, Status::assumed);
  }
  if (!found || found->seen <= 0) {
    job.facts.derive(fact::mirror_no_place, phrase::between_tongue_and_teeth(), from,
                     Status::assumed);
    return missing::mirror_place();
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
