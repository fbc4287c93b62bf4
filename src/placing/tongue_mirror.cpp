#include "placing/tongue_mirror.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "physics/mirror.hpp"
#include "placing/lamp.hpp"
#include "placing/outline.hpp"

namespace norma::placing {
namespace {

/// By how much the camera is turned about its axis, anticlockwise for who holds it, where the
/// picture lies as the setting has it.
Angle turn_of_camera(const Pose& pose, double up, const TongueStand& stand) {
  const physics::Axes level = physics::camera_axes(stand.azimuth, up * stand.above, Angle{});
  const physics::Axes held = physics::in_mirror(pose.axes, pose.mirror->normal);
  return std::atan2(physics::dot(held.right, level.up), physics::dot(held.right, level.right)) *
         radian;
}

bool better_than(const TongueMirror& one, const TongueMirror& other) {
  const auto rank = [](const TongueMirror& p) { return p.all ? (p.lamp ? 1 : 2) : 0; };
  if (rank(one) != rank(other)) return rank(one) > rank(other);
  // The lamp in the picture, or a camera turned by 30 degrees, weighs as much as half a tooth; a
  // hair more is no reason to look from farther round.
  const auto worth = [](const TongueMirror& p) {
    return p.seen - (p.lamp ? 0.5 : 0.0) - abs(p.turn) / (60.0 * degree);
  };
  return worth(one) > worth(other) + 0.05;
}

/// Lips and cheeks, too: it leads out between them as they are held.
std::vector<physics::Box> bodies_around(const HeldMouth& held) {
  std::vector<physics::Box> bodies = held.mouth().boxes;
  for (const physics::Box& b : physics::palate_and_floor(held.state()))
    bodies.push_back(b);
  return bodies;
}

/// A mirror's place for one view. What is worked out of a direction holds for every width.
class Search {
 public:
  Search(const Setting& setting, const Pose& pose, Length length)
      : setting_(setting), pose_(pose), sight_(tongue_sight(setting, pose, length)),
        bodies_(bodies_around(pose.mouth)), directions_(above.size() * azimuths.size() * rises) {}

  /// Where a mirror of this outline shows all, or else most; nothing where it goes nowhere. Level
  /// and near the teeth first.
  [[nodiscard]] std::optional<TongueMirror> best_place(const physics::PlaneMirror& outline) {
    std::optional<TongueMirror> best;
    const auto look = [&](TongueDirection& direction, const TonguePlane&, Length off,
                          const physics::PlaneMirror& mirror) {
      TongueMirror place = judged(direction, off, mirror);
      if (!best || better_than(place, *best)) best = std::move(place);
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
    const auto look = [&](TongueDirection& direction, TonguePlane& plane, Length off,
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
  std::optional<TongueDirection>& direction(std::size_t a, std::size_t z, std::size_t r) {
    constexpr Angle rise_step = 10.0 * degree;
    std::optional<std::optional<TongueDirection>>& known =
        directions_[(a * azimuths.size() + z) * rises + r];
    if (!known) {
      const TongueStand stand{
          side() * azimuths[z] * degree, above[a] * degree, static_cast<double>(r) * rise_step, {}};
      known = TongueDirection::of(sight_, stand, bodies_);
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
    for (std::size_t step = 0;
         TongueDirection::off_at(step) <= TongueDirection::farthest && clear < most; ++step) {
      auto& plane = towards->plane(sight_, step);
      if (!plane) continue;
      const auto mirror = clear_in(*towards, *plane, outline, half);
      if (!mirror) continue;
      ++clear;
      if (look(*towards, *plane, TongueDirection::off_at(step), *mirror)) return true;
    }
    return false;
  }
  /// Of the outline, on each line across it from its far end on.
  [[nodiscard]] std::vector<Length> half_widths(const physics::PlaneMirror& outline) const {
    const std::size_t lines = lines_of(sight_.length);
    std::vector<Length> half;
    half.reserve(lines + 1);
    for (std::size_t i = 0; i <= lines; ++i) {
      const double share = static_cast<double>(i) / static_cast<double>(lines) - 0.5;
      half.push_back(outline.half_width(share * sight_.length).value_or(Length{}));
    }
    return half;
  }
  /// The mirror in a plane, moved across as little as keeps it clear of all that it may meet.
  [[nodiscard]] std::optional<physics::PlaneMirror> clear_in(const TongueDirection& direction,
                                                             const TonguePlane& plane,
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
    m.middle = plane.on + m.along * (plane.far_end + 0.5 * sight_.length) + m.across * *middle;
    return m;
  }
  /// Does the outline hold enough of each surface? Sooner answered than what a look would say.
  [[nodiscard]] bool holds(const TongueDirection& direction, TonguePlane& plane,
                           const physics::PlaneMirror& mirror) const {
    direction.cross(sight_, plane);
    const Length way = physics::along(mirror.middle - plane.on, mirror.along);
    const Length side = physics::along(mirror.middle - plane.on, mirror.across);
    std::size_t begin = 0;
    for (const std::size_t end : plane.ends) {
      const auto in = std::count_if(plane.crossings.begin() + static_cast<std::ptrdiff_t>(begin),
                                    plane.crossings.begin() + static_cast<std::ptrdiff_t>(end),
                                    [&](const Crossing& c) {
                                      const auto half = mirror.half_width(c.way - way);
                                      return half && abs(c.side - side) <= *half;
                                    });
      // One more may lie on the edge: a look decides.
      if (!(static_cast<double>(in) + 1 >=
            setting_.limits.in_mirror.value() * static_cast<double>(end - begin)))
        return false;
      begin = end;
    }
    return true;
  }
  [[nodiscard]] bool nothing_hides(TonguePlane& plane, const physics::PlaneMirror& mirror) const {
    if (!plane.nothing_hides) {
      constexpr Length endless = 1.0 * metre;
      Pose open = pose_;
      open.mirror = mirror;
      open.mirror->width = open.mirror->narrow_end = open.mirror->length = endless;
      open.mirror->corner = {};
      plane.nothing_hides = shows_all(look_at(setting_, open));
    }
    return *plane.nothing_hides;
  }
  [[nodiscard]] TongueMirror judged(const TongueDirection& direction, Length off,
                                    const physics::PlaneMirror& mirror) const {
    TongueMirror place{pose_, direction.stand, 0, false, false, {}};
    place.pose.mirror = mirror;
    place.stand.off = off;
    place.turn = turn_of_camera(place.pose, sight_.up, place.stand);
    place.lamp = shows_lamp(setting_, place.pose);
    const std::vector<Shown> shown = look_at(setting_, place.pose);
    place.all = shows_all(shown);
    place.seen = seen_in_all(shown);
    return place;
  }
  [[nodiscard]] bool whole(const TongueMirror& place) const {
    constexpr double nearly = 0.95;
    return place.all && !place.lamp &&
           place.seen >= nearly * static_cast<double>(setting_.wanted.size());
  }
  /// Towards the side of the teeth first, so that both sides of the mouth come out alike.
  [[nodiscard]] double side() const { return sight_.ahead.x < 0 ? 1.0 : -1.0; }

  const Setting& setting_;
  const Pose& pose_;
  TongueSight sight_;
  std::vector<physics::Box> bodies_;
  std::vector<std::optional<std::optional<TongueDirection>>> directions_; // not asked for: nothing
};

std::optional<Length> width_that_fits(Search& search, const Sheet& sheet, Length own,
                                      bool goes_in) {
  constexpr Length step = 2.0 * mm;
  constexpr Length narrowest = 14.0 * mm;
  constexpr Length most_narrower = 60.0 * mm;
  constexpr Length most_wider = 20.0 * mm;
  const auto fits = [&](Length width) {
    return search.shows_all_somewhere(outline_of(scaled(sheet, width / own)));
  };
  for (Length off = step; off <= most_narrower; off += step) {
    if (own - off >= narrowest && fits(own - off)) return own - off;
    if (goes_in && off <= most_wider && fits(own + off)) return own + off;
  }
  return std::nullopt;
}

} // namespace

std::optional<TongueMirror> place_tongue_mirror(const Setting& setting, const Pose& pose) {
  const physics::PlaneMirror outline = outline_of(setting.mirror->sheet);
  return Search(setting, pose, outline.length).best_place(outline);
}

TongueMirrorOrWidth place_tongue_mirror_or_fit(const Setting& setting, const Pose& pose) {
  const Sheet& sheet = setting.mirror->sheet;
  const physics::PlaneMirror outline = outline_of(sheet);
  Search search(setting, pose, outline.length);
  TongueMirrorOrWidth out;
  out.found = search.best_place(outline);
  if (!out.found || !out.found->all) {
    const bool goes_in = out.found && out.found->seen > 0;
    out.width_that_fits = width_that_fits(search, sheet, outline.width, goes_in);
  }
  return out;
}

} // namespace norma::placing
