#include "plan/by_hand/by_hand.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "facts/facts.hpp"
#include "margins/margin.hpp"
#include "physics/defaults.hpp"
#include "placing/mirror.hpp"

namespace norma::plan {
namespace {

using diag::Said;
using diag::Value;
using margins::Error;
using physics::Vec;
namespace defaults = physics::defaults;

/// A position, how round it is said, and whether the view holds there.
struct Rounded {
  double value = 0;
  Room room = Room::enough;
};

/// The value in a detail.
double number_in(const Said& detail, std::size_t at = 0) {
  const auto* measure = std::get_if<diag::Measure>(&detail.arguments[at].is);
  return measure == nullptr ? 0 : measure->number;
}
Angle angle_in(const Said& detail, std::size_t at = 0) {
  return Angle::from_base(number_in(detail, at));
}
Length length_in(const Said& detail, std::size_t at = 0) {
  return Length::from_base(number_in(detail, at));
}

/// A vector turned about a unit vector. Source: Rodrigues' formula.
Vec turned_about(Vec v, Vec axis, Angle by) {
  return v * cos(by) + physics::cross(axis, v) * sin(by) +
         axis * (physics::dot(axis, v) * (1 - cos(by)));
}
void turn(physics::Axes& axes, Vec about, Angle by) {
  for (Vec* v : {&axes.right, &axes.up, &axes.forward})
    *v = turned_about(*v, about, by);
}

// Words ------------------------------------------------------------------------------------------

constexpr double thumb = defaults::thumb_breadth.value;
constexpr double hand = defaults::hand_breadth.value;

Said thumbs_said(double length) {
  const int halves = static_cast<int>(std::lround(2 * length / thumb));
  const int whole = halves / 2;
  if (halves % 2 != 0) {
    return whole == 0   ? by_hand::half_a_thumb()
           : whole == 1 ? by_hand::a_thumb_and_a_half()
                        : by_hand::thumbs_and_a_half(whole);
  }
  return whole == 1 ? by_hand::a_thumb() : by_hand::thumbs(whole);
}
/// More hands than these nobody lays one over the other.
constexpr int most_hands = 4;
/// A length in millimetres that is some half thumbs.
Said breadths_said(double length) {
  const int hands = static_cast<int>((length + 0.25 * thumb) / hand);
  const double rest = length - hands * hand;
  if (hands > most_hands) {
    return by_hand::centimetres(diag::Measure{physics::Kind::tenths, std::round(length / 10.0)});
  }
  if (hands == 0) return thumbs_said(length);
  Said whole = hands == 1 ? by_hand::a_hand() : by_hand::hands(hands);
  return rest < 0.25 * thumb ? std::move(whole)
                             : by_hand::and_more(std::move(whole), thumbs_said(rest));
}

/// Degrees of a quarter of a turn.
Said share_said(double degrees) {
  switch (std::clamp(static_cast<int>(std::lround(degrees / 15)), 1, 5)) {
  case 1: return by_hand::a_little_way();
  case 2: return by_hand::a_third_of_the_way();
  case 3: return by_hand::half_way();
  case 4: return by_hand::two_thirds_of_the_way();
  default: return by_hand::nearly_all_the_way();
  }
}

Said centimetres(double millimetres) {
  return by_hand::centimetres(diag::Measure{physics::Kind::tenths, millimetres / 10});
}

} // namespace

/// A view as it stands, and what it promises.
class ByHand::Judged {
 public:
  explicit Judged(const ViewPlan& view) {
    const placing::Setting* setting = view.work->setting.get();
    if (setting == nullptr) return;
    auto pose = placing::pose_of(*setting);
    if (!pose) return;
    planned_ = margins::standing(*setting, std::move(*pose));
    judge_ = margins::judge_for(*planned_);
  }

  [[nodiscard]] const margins::Standing* planned() const { return planned_ ? &*planned_ : nullptr; }

  /// The roundest of these steps that holds: the value to the nearest of each, the coarsest first.
  /// `off(by)` is the view so far off what was planned; `slip`: of a careful hand; `most`: what is
  /// said lies no farther off, whatever holds there.
  template <class Off>
  [[nodiscard]] Rounded round(double value, std::span<const double> steps, double slip, double most,
                              const Off& off) const {
    Rounded out{value, Room::not_known};
    for (const double step : steps) {
      const double nearest = std::round(value / step) * step;
      const double by = nearest - value;
      if (nearest <= 0 || (std::abs(by) > most && step != steps.back())) continue;
      out.value = nearest;
      if (!judge_) {
        out.room = Room::not_known;
        if (std::abs(by) <= slip) return out;
        continue;
      }
      const auto holds = [&](double at) {
        const std::vector<margins::Standing> all = off(at);
        return std::all_of(all.begin(), all.end(),
                           [&](const margins::Standing& s) { return judge_->holds(s); });
      };
      const bool held = slip > 0 ? holds(by - slip) && holds(by + slip) : holds(by);
      out.room = held ? Room::enough : Room::little;
      if (held) return out;
    }
    return out;
  }

  /// The camera turned about its aim by degrees: aside, or in height.
  [[nodiscard]] std::vector<margins::Standing> camera_off(bool height, double by) const {
    if (!planned_) return {};
    if (planned_->pose.mirror) {
      // What the operator moves is the camera; its image moves the other way about: both are asked.
      const Error what = height ? Error::camera_height : Error::camera_sideways;
      return {margins::disturbed(*planned_, what, by), margins::disturbed(*planned_, what, -by)};
    }
    margins::Standing out = *planned_;
    physics::Axes& axes = out.pose.axes;
    constexpr Vec up{0, 0, 1};
    const Vec level = physics::cross(axes.forward, up);
    if (physics::norm(level) < 1e-6) return {}; // straight from above
    // From the nose towards the patient's right is anticlockwise seen from below.
    if (height) {
      turn(axes, physics::unit(level), -by * degree);
    } else {
      turn(axes, up, -by * degree);
    }
    return {std::move(out)};
  }
  [[nodiscard]] std::vector<margins::Standing> off(Error what, double by) const {
    return planned_ ? std::vector{margins::disturbed(*planned_, what, by)}
                    : std::vector<margins::Standing>();
  }

 private:
  std::optional<margins::Standing> planned_;
  std::optional<margins::Judge> judge_;
};

namespace {

/// What is said in place of one act's details.
template <class Judged> class Saying {
 public:
  Saying(const ViewPlan& view, const Judged& judged, ByHand::Told& out)
      : view_(view), judged_(judged), out_(out) {}

  /// A detail, said; false where it is said as it is.
  bool detail(const Said& d) {
    const diag::Row* row = d.row;
    if (row == &how::from_midline) {
      clock(d, by_hand::lens_at_on_right, by_hand::lens_at_on_left);
    } else if (row == &how::seen_from_side) {
      clock(d, by_hand::for_lens_at_on_right, by_hand::for_lens_at_on_left);
    } else if (row == &how::from_above || row == &how::from_below) {
      height(angle_in(d), row == &how::from_above, camera_words);
    } else if (row == &how::turned_clockwise) {
      put((angle_in(d) < a_little ? by_hand::turned_a_little_clockwise
                                  : by_hand::turned_clockwise)());
    } else if (row == &how::turned_anticlockwise) {
      put((angle_in(d) < a_little ? by_hand::turned_a_little_anticlockwise
                                  : by_hand::turned_anticlockwise)());
    } else if (row == &how::lens_from || row == &how::lens_from_by_mirror) {
      distance(d);
    } else {
      return mirror(d);
    }
    return true;
  }

  /// A mirror's place is found by what it shows.
  void until_it_shows() {
    if (!turned_mirror_) return;
    diag::Teeth teeth;
    for (const physics::Shown& s : view_.shown) {
      if (physics::enough_of(s) && std::find(teeth.begin(), teeth.end(), s.tooth) == teeth.end())
        teeth.push_back(s.tooth);
    }
    if (!teeth.empty()) put(by_hand::until_it_shows(std::move(teeth)));
  }

  /// Told once for all of an act.
  void room() {
    if (out_.room == Room::little) put(by_hand::little_room());
    if (out_.room == Room::not_known && rounded_) put(by_hand::as_drawn());
  }

  /// How far the camera may be off: beside its place, as much as that is seen as the angle, and in
  /// its distance; never more than that.
  void tolerance(Value& allowed) {
    const auto* measure = std::get_if<diag::Measure>(&allowed.is);
    if (measure == nullptr) return;
    if (measure->kind == physics::Kind::length) {
      allowed = centimetres(Length::from_base(measure->number).in(mm));
      out_.other = true;
      return;
    }
    const auto away = view_.facts.get(fact::working_distance);
    if (measure->kind != physics::Kind::angle || !away) return;
    const double length = sin(Angle::from_base(measure->number)) * away->in(mm);
    const double half = 0.5 * thumb;
    if (length < half) return;
    allowed = breadths_said(std::floor(length / half) * half);
    out_.other = true;
  }

 private:
  static constexpr Angle a_little = 15.0 * degree;
  static constexpr double slip = defaults::careful_angle.value;
  static constexpr double roundest = defaults::roundest_angle.value;

  void put(Said said) { out_.act.how.push_back(std::move(said)); }
  /// A value as round as it can be said.
  double take(const Rounded& r, double planned) {
    constexpr double hair = 0.5;
    out_.room = std::max(out_.room, r.room);
    rounded_ = rounded_ || std::abs(r.value - planned) > hair;
    return r.value;
  }

  void clock(const Said& d, const diag::Sentence<1>& on_right, const diag::Sentence<1>& on_left) {
    const bool right = d.arguments[1] == Value(object::right());
    constexpr std::array steps{15.0, 7.5};
    const double planned = angle_in(d).in(degree);
    const double said =
        take(judged_.round(planned, steps, slip, roundest,
                           [&](double by) { return judged_.camera_off(false, right ? by : -by); }),
             planned);
    put(right ? on_right(clock_said(said * degree)) : on_left(clock_said(-said * degree)));
  }

  /// How far the front of the lens stands above or below what it looks at.
  struct HeightWords {
    const diag::Sentence<1>& above;
    const diag::Sentence<1>& below;
    const diag::Term& above_until;
    const diag::Term& below_until;
  };
  static constexpr HeightWords camera_words{by_hand::lens_above, by_hand::lens_below,
                                            by_hand::from_above_until_drawn,
                                            by_hand::from_below_until_drawn};
  static constexpr HeightWords mirror_words{by_hand::for_lens_above, by_hand::for_lens_below,
                                            by_hand::for_lens_from_above,
                                            by_hand::for_lens_from_below};
  void height(Angle from_level, bool above, const HeightWords& words) {
    const auto away = view_.facts.get(fact::working_distance);
    if (!away) {
      out_.room = std::max(out_.room, Room::not_known);
      return put((above ? words.above_until : words.below_until)());
    }
    double reach = away->in(mm);
    double first = 0; // of the mirror's middle above what is looked at
    if (view_.scene && view_.scene->eye.mirror) {
      const physics::Eye& eye = view_.scene->eye;
      const physics::Point aim = eye.lens.pupil + eye.lens.axes.forward * eye.lens.focus_distance;
      const Vec way = physics::direction(aim, eye.mirror->middle);
      reach -= physics::norm(way);
      first = (above ? 1 : -1) * way.z;
    }
    const double planned = first + reach * sin(from_level);
    constexpr std::array steps{hand, thumb, 0.5 * thumb};
    const auto angle_of = [&](double length) {
      return std::asin(std::clamp((length - first) / reach, -1.0, 1.0)) * radian;
    };
    if (planned <= 0 || reach <= 0) return put((above ? words.above_until : words.below_until)());
    const double slip_length = reach * sin(slip * degree);
    const double said =
        take(judged_.round(planned, steps, slip_length, reach * sin(roundest * degree),
                           [&](double by) {
                             const Angle off = angle_of(planned + by) - from_level;
                             const double degrees = off.in(degree);
                             return judged_.camera_off(true, above ? degrees : -degrees);
                           }),
             planned);
    put((above ? words.above : words.below)(breadths_said(said)));
  }

  /// The ratio is set, and sharpness finds the distance: it is said as where to begin.
  void distance(const Said& d) {
    const double planned = length_in(d).in(mm);
    constexpr std::array far{50.0, 10.0, 5.0};
    constexpr std::array near{10.0, 5.0, 1.0};
    const Rounded r = judged_.round(
        planned, planned < 200 ? std::span<const double>(near) : std::span<const double>(far), 0,
        planned, [&](double by) { return judged_.off(Error::camera_distance, by); });
    // Without a look at it: to the centimetre, as exact as a lens's scale.
    constexpr double ten = 10;
    const double said =
        r.room == Room::not_known ? std::max(std::round(planned / ten), 1.0) * ten : r.value;
    if (r.room == Room::little) out_.room = Room::little;
    put((d.row == &how::lens_from ? by_hand::lens_from : by_hand::lens_from_by_mirror)(
        centimetres(said), d.arguments[1]));
  }

  bool mirror(const Said& d) {
    const diag::Row* row = d.row;
    if (row == &how::opened_from_biting_plane || row == &how::beside_cheek) {
      constexpr std::array steps{15.0};
      const double planned = angle_in(d).in(degree);
      const double said =
          take(judged_.round(planned, steps, slip, planned,
                             [&](double by) { return judged_.off(Error::mirror_angle, by); }),
               planned);
      put((row == &how::beside_cheek ? by_hand::opened_in_cheek
                                     : by_hand::opened)(share_said(said)));
    } else if (row == &how::middle_moved) {
      const double half = 0.5 * thumb;
      const double by = length_in(d).in(mm);
      put(by < half ? by_hand::moved_a_little(d.arguments[1])
                    : by_hand::moved(breadths_said(std::round(by / half) * half), d.arguments[1]));
    } else if (row == &how::beside_tongue_seen_from_above ||
               row == &how::beside_tongue_seen_from_below) {
      put(by_hand::between_tongue_and_teeth());
      height(angle_in(d), row == &how::beside_tongue_seen_from_above, mirror_words);
    } else if (row == &how::rising) {
      put(by_hand::rising());
    } else if (row == &how::behind_teeth_seen_from_above ||
               row == &how::behind_teeth_seen_from_below) {
      constexpr std::array steps{thumb, 0.5 * thumb};
      const double planned = length_in(d).in(mm);
      const double said =
          take(judged_.round(planned, steps, defaults::careful_length.value, planned,
                             [&](double by) { return judged_.off(Error::mirror_slide, by); }),
               planned);
      put(by_hand::behind_teeth(breadths_said(said)));
      height(angle_in(d, 1), row == &how::behind_teeth_seen_from_above, mirror_words);
    } else {
      return false;
    }
    turned_mirror_ = true;
    return true;
  }

  const ViewPlan& view_;
  const Judged& judged_;
  ByHand::Told& out_;
  bool rounded_ = false;
  bool turned_mirror_ = false;
};

bool needs_a_number(const Act& act) {
  return std::any_of(act.how.begin(), act.how.end(), [](const Said& d) {
    return std::any_of(d.arguments.begin(), d.arguments.end(),
                       [](const Value& v) { return std::holds_alternative<diag::Measure>(v.is); });
  });
}

} // namespace

Said clock_said(Angle clockwise) {
  constexpr double quarter_hour = 7.5;
  const int quarters = 96 + static_cast<int>(std::lround(clockwise.in(degree) / quarter_hour));
  // 6 o'clock is where it begins.
  const int struck = (quarters / 4 + 5) % 12 + 1;
  switch (quarters % 4) {
  case 0: return by_hand::oclock(struck);
  case 1: return by_hand::quarter_past(struck);
  case 2: return by_hand::half_past(struck);
  default: return by_hand::quarter_to(struck % 12 + 1);
  }
}

ByHand::ByHand(const ViewPlan& view) : view_(view) {}
ByHand::ByHand(ByHand&&) noexcept = default;
ByHand::~ByHand() = default;

ByHand::Told ByHand::told(const Act& act) const {
  Told out{act};
  const bool allows = act.verb == Verb::allow_angle || act.verb == Verb::allow_angle_and_distance;
  if (!allows && !needs_a_number(act)) return out;
  if (judged_ == nullptr) judged_ = std::make_unique<const Judged>(view_);
  Saying<Judged> saying(view_, *judged_, out);
  if (allows) {
    for (Value& allowed : out.act.objects)
      saying.tolerance(allowed);
    return out;
  }
  out.act.how.clear();
  for (const Said& d : act.how) {
    if (saying.detail(d)) {
      out.other = true;
    } else {
      out.act.how.push_back(d);
    }
  }
  saying.until_it_shows();
  saying.room();
  return out;
}

Act told_for_all(const std::vector<const ViewPlan*>& views, const Act& act) {
  ByHand::Told out{act};
  bool first = true;
  for (const ViewPlan* v : views) {
    ByHand::Told one = ByHand(*v).told(act);
    if (first || one.room > out.room) out = std::move(one);
    first = false;
  }
  return std::move(out.act);
}

} // namespace norma::plan
