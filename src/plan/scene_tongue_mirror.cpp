// A mirror between the tongue and the back teeth, leant over and led out over the front teeth.
#include <algorithm>
#include <cmath>

#include "physics/mirror.hpp"
#include "physics/scene/sheet_room.hpp"
#include "plan/scene.hpp"

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

/// A plane in which a mirror may lie, whatever its width, and what it meets there.
struct Plane {
  physics::Point on;
  Length far_end;     // along it, from `on`: where the mirror begins
  Length least, most; // across it: where the ways from what must show to the lens's image cross it
  physics::SheetRoom::Section section;
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
  const std::optional<Plane>& plane(const Setting& setting, const Points& shown, Length beyond,
                                    Length length, std::size_t step) {
    if (planes_.size() <= step)
      planes_.push_back(make_plane(setting, shown, beyond, length, off_at(step)));
    return planes_[step];
  }
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

std::optional<Plane> Direction::make_plane(const Setting& setting, const Points& shown,
                                           Length beyond, Length length, Length off) const {
  const physics::Vec ahead = setting.axes.forward; // of the camera's image: from the tongue
  const physics::Point on = setting.aim - ahead * off;
  const physics::Point image = setting.aim - ahead * setting.pupil_distance;
  Length deepest, least, most;
  bool first = true;
  for (const physics::SurfacePoint& p : shown) {
    const Length before = physics::along(p.at - on, normal);
    const Length behind = physics::along(on - image, normal);
    if (before <= Length{} || behind <= Length{}) return std::nullopt; // no mirror between them
    const double share = before / (before + behind);
    const physics::Point way_to_lens = image - p.at;
    const physics::Point crossing =
        p.at + physics::Point{share * way_to_lens.x, share * way_to_lens.y, share * way_to_lens.z};
    const Length way = physics::along(crossing - on, along);
    const Length side = physics::along(crossing - on, across);
    deepest = first ? way : std::min(deepest, way);
    least = first ? side : std::min(least, side);
    most = first ? side : std::max(most, side);
    first = false;
  }
  if (first) return std::nullopt;
  // Its far end a little beyond the deepest of them.
  const Length far_end = deepest - beyond;
  const std::size_t lines = lines_of(length);
  return Plane{on, far_end, least, most,
               room_.section(on, far_end, lines + 1, length / static_cast<double>(lines))};
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

/// What is looked for.
enum class Wish {
  best,    // where the mirror shows all, else most: steeper and farther places, too
  any_that // the first place where it shows all; of each direction the nearest to the teeth
};

/// A mirror's place for one view. What is worked out of a direction holds for every width.
class Search {
 public:
  Search(const Job& job, const Setting& setting, const Points& shown, Length beyond, Length length,
         std::span<const physics::Box> bodies)
      : job_(job), setting_(setting), shown_(shown), beyond_(beyond), length_(length),
        bodies_(bodies) {}

  /// Where a mirror of this outline shows all, or else most; nothing where it goes nowhere. Level
  /// and near the teeth first.
  [[nodiscard]] std::optional<Place> place(const physics::PlaneMirror& outline, Wish wish) {
    constexpr Angle steepest = 60.0 * degree;
    constexpr Angle rise_step = 10.0 * degree;
    const std::vector<Length> half = half_widths(outline);
    std::optional<Place> best;
    std::size_t next = 0;
    for (const double above : {0.0, 20.0, 40.0, 60.0}) {
      for (const double azimuth : {0.0, 20.0, -20.0, 40.0, -40.0}) {
        for (Angle rise; rise <= steepest; rise += rise_step) {
          auto& direction =
              known(next++, Stand{side() * azimuth * degree, above * degree, rise, {}});
          if (!direction) continue;
          const int clear = look_along(*direction, outline, half, wish == Wish::best ? 3 : 1, best);
          if (wish == Wish::any_that && best && best->all) return best;
          if (clear > 0 && (wish == Wish::any_that || whole(*best))) break;
        }
      }
      if (best && whole(*best)) break; // from higher up the camera would be turned further
    }
    return best;
  }

 private:
  std::optional<Direction>& known(std::size_t index, const Stand& stand) {
    if (directions_.size() <= index) directions_.push_back(Direction::of(setting_, stand, bodies_));
    return directions_[index];
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
  /// The mirror in a plane, moved across as little as keeps it clear of teeth and gum.
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
  void judge(Place& place) const {
    place.all = true;
    place.turn = turn_of_camera(place.setting, place.stand);
    place.lamp = shows_lamp(job_, place.setting);
    for (const Shown& s : look_at(place.setting)) {
      place.seen += s.facing > 0 ? s.seen / s.facing : 0;
      place.all = place.all && enough_of(s);
    }
  }
  /// Looks at the nearest `most` places so; how many there are. Keeps the best.
  int look_along(Direction& direction, const physics::PlaneMirror& outline,
                 std::span<const Length> half, int most, std::optional<Place>& best) {
    int clear = 0;
    for (std::size_t step = 0; Direction::off_at(step) <= Direction::farthest && clear < most;
         ++step) {
      const auto& plane = direction.plane(setting_, shown_, beyond_, length_, step);
      if (!plane) continue;
      const auto mirror = clear_in(direction, *plane, outline, half);
      if (!mirror) continue;
      ++clear;
      Place place;
      place.setting = setting_;
      place.setting.mirror = mirror;
      place.stand = direction.stand;
      place.stand.off = Direction::off_at(step);
      judge(place);
      if (!best || place.better_than(*best)) best = std::move(place);
      if (whole(*best)) break;
    }
    return clear;
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
  std::vector<std::optional<Direction>> directions_;
};

/// The nearest width to the kit's at which all are seen; none wider where not even this one goes
/// in.
std::optional<Length> width_that_fits(Search& search, const physics::PlaneMirror& outline,
                                      bool goes_in) {
  constexpr Length step = 2.0 * mm;
  constexpr Length narrowest = 14.0 * mm;
  constexpr Length widest = 60.0 * mm;
  const auto shows_all = [&](Length width) {
    physics::PlaneMirror other = outline;
    other.width = width;
    const double scale = width / outline.width; // of the same shape
    other.narrow_end = outline.narrow_end * scale;
    other.corner = outline.corner * scale;
    const auto place = search.place(other, Wish::any_that);
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
  Search search(job, setting, *points, beyond, outline.length, bodies);
  const auto found = search.place(outline, Wish::best);
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
