// What the kit's lamp lights of what the lens sees.
#include <algorithm>
#include <cmath>

#include "physics/mirror.hpp"
#include "physics/scene/glare.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

constexpr int ring_points = 16;

/// Which way from the lens a lamp beside it stands, in the picture as shot; nothing where its side
/// is not known.
std::optional<physics::Vec> beside(const Job& job, const Setting& setting) {
  const kit::Lamp& lamp = *job.out.chosen.lamp;
  const physics::Axes& axes = setting.axes;
  const auto side = job.facts.get(fact::lamp_side);
  if (side && *side != LampAt::neither) {
    // In a view from the right, held level, the front teeth lie at the right of the picture.
    const bool over = abs(setting.roll - 180.0 * degree) < 1.0 * degree;
    const bool right = (setting.azimuth > Angle{}) == (*side == LampAt::front_teeth);
    return right != over ? axes.right : -axes.right;
  }
  const bool moves = lamp.moves.known() && lamp.moves.get() == kit::LampMoves::by_hand;
  if (!lamp.side.known()) return moves ? std::optional(axes.right) : std::nullopt;
  switch (lamp.side.get()) {
  case kit::LampSide::left: return -axes.right;
  case kit::LampSide::right: return axes.right;
  case kit::LampSide::top: return axes.up;
  case kit::LampSide::bottom: return -axes.up;
  }
  return std::nullopt;
}

/// Where the light of the kit's lamp comes from; `towards`: which way a lamp beside the lens
/// stands. Nothing (and what is missing) where it is not known.
std::optional<physics::Lamp> lamp_of(const Job& job, const Setting& setting, physics::Vec towards,
                                     Said& missing) {
  const kit::Lamp* lamp = job.out.chosen.lamp;
  const auto working = job.facts.get(fact::working_distance);
  if (!working) {
    missing = missing::working_distance();
    return std::nullopt;
  }
  const Length distance = *working + lamp_behind_front(*lamp);
  // The lamp rides on the camera; in a mirror its image stands where the camera's image does.
  const physics::Axes& axes = setting.axes;
  const physics::Point middle = setting.aim - axes.forward * distance;
  const kit::LampKind kind = lamp->kind.get();
  physics::Lamp out;
  if (kind == kit::LampKind::ring) {
    if (!lamp->radius.known()) {
      missing = missing::ring_radius();
      return std::nullopt;
    }
    out = physics::ring_lamp(middle, axes, lamp->radius.get(), ring_points);
  } else if (kind == kit::LampKind::built_in) {
    out.points = {middle};
  } else {
    if (!lamp->offset.known()) {
      missing = missing::lamp_offset();
      return std::nullopt;
    }
    out.points = {middle + towards * lamp->offset.get()};
  }
  if (setting.mirror) {
    for (physics::Point& p : out.points)
      p = physics::reflected(p, setting.mirror->middle, setting.mirror->normal);
  }
  return out;
}

/// By a body: where the mirror ends, light is missing, but nothing throws a shadow.
bool in_shadow(const Shown& s) {
  const bool by_body = s.shade == Hider::crown || s.shade == Hider::gum || s.shade == Hider::lip ||
                       s.shade == Hider::cheek;
  return by_body && s.seen > 0 && !stands_behind(s) && !s.enough_lit;
}

List shades_of(const std::vector<Shown>& shown) {
  List out;
  for (const Shown& s : shown) {
    if (!in_shadow(s)) continue;
    add_once(out, s.shade == Hider::cheek ? phrase::the_cheek()
                  : s.shade == Hider::lip ? phrase::a_lip()
                  : s.shade == Hider::gum ? phrase::gum()
                                          : phrase::another_tooth());
  }
  return out;
}

/// Where in the picture, as shot, the mirror shows the lamp.
void set_lamp_place(Job& job, const Setting& setting, physics::Point at) {
  const auto on = physics::project(at, eye_of(setting).lens);
  if (!on) return;
  const auto third = [](Length off, Length whole) {
    const double share = off / whole;
    return share < -1.0 / 6 ? -1 : share > 1.0 / 6 ? 1 : 0;
  };
  const int row = third(on->up, setting.sensor.height);
  const int column = third(on->right, setting.sensor.width);
  job.facts.derive(fact::lamp_in_mirror_at, static_cast<PicturePart>(3 * (row + 1) + column + 1),
                   {&fact::mirror, &fact::pupil_distance}, Status::assumed);
}

/// An arch mirror opened otherwise, the camera where the protocol has it, else square to the arch.
void try_angles_without_lamp(Job& job, const Setting& setting) {
  if (!job.facts.get(fact::mirror_angle) || job.view.mirror->use != model::MirrorUse::occlusal)
    return;
  const Angle limit = *job.facts.get(fact::turned_limit);
  const auto angle = nearest_good_angle(job, setting, [&](const Setting& other) {
    const std::vector<Shown> shown = look_at(other);
    return std::all_of(shown.begin(), shown.end(),
                       [&](const Shown& s) { return enough_of(s) && s.obliquity <= limit; }) &&
           !shows_lamp(job, other);
  });
  if (angle)
    job.facts.derive(fact::mirror_angle_without_lamp, *angle, {&fact::mirror_angle},
                     Status::assumed);
}

} // namespace

bool shows_lamp(const Job& job, const Setting& setting) {
  const kit::Lamp* lamp = job.out.chosen.lamp;
  if (lamp == nullptr || !lamp->kind.known()) return false;
  const bool around =
      lamp->kind.get() == kit::LampKind::ring || lamp->kind.get() == kit::LampKind::built_in;
  const auto towards = around ? std::optional(physics::Vec{}) : beside(job, setting);
  if (!towards) return false;
  Said missing;
  const auto here = lamp_of(job, setting, *towards, missing);
  return here &&
         physics::lamp_in_mirror(physics::make_mouth(setting.mouth), eye_of(setting), here->points);
}

void light_scene(Job& job, const Setting& setting) {
  const kit::Lamp* lamp = job.out.chosen.lamp;
  if (lamp == nullptr) return; // said by the light
  if (!lamp->kind.known()) return job.open(question::lamp_shadow, missing::kind_of_lamp());
  const bool ring = lamp->kind.get() == kit::LampKind::ring;
  const bool built_in = lamp->kind.get() == kit::LampKind::built_in;
  if (const auto d = job.facts.get(fact::working_distance)) {
    job.facts.derive(fact::lamp_distance_to_aim, *d + lamp_behind_front(*lamp),
                     {&fact::working_distance, &fact::lamp});
  }
  const std::optional<physics::Vec> towards =
      ring || built_in ? std::optional(physics::Vec{}) : beside(job, setting);
  if (!towards) {
    const Fact* f = job.facts.find(fact::lamp_side);
    return job.open(question::lamp_shadow, f == nullptr ? missing::side_of_lamp() : f->why);
  }
  Said missing;
  const auto here = lamp_of(job, setting, *towards, missing);
  if (!here) return job.open(question::lamp_shadow, missing);
  job.out.scene->lamp = here->points;
  if (setting.mirror) {
    const auto at =
        physics::lamp_in_mirror(physics::make_mouth(setting.mouth), eye_of(setting), here->points);
    if (at) {
      set_lamp_place(job, setting, *at);
      try_angles_without_lamp(job, setting);
    }
  }
  if (built_in) return; // around the lens: what it sees is lit
  const std::vector<const FactRow*> from{&fact::lamp_side, &fact::azimuth,
                                         &fact::lamp_distance_to_aim};
  job.out.shown = look_at(setting, &*here);
  const std::vector<Shown>& shown = job.out.shown;
  double most = 0;
  double least = 0;
  for (const Shown& s : shown) {
    if (stands_behind(s) || s.light <= 0) continue;
    most = std::max(most, s.light);
    least = least == 0 ? s.light : std::min(least, s.light);
  }
  if (least > 0)
    job.facts.derive(fact::light_evenness, std::log2(most / least) * stop, from, Status::assumed);
  const auto dark = teeth_of(shown, in_shadow);
  if (dark.empty()) return;
  job.facts.derive(fact::teeth_in_shadow, dark, from, Status::assumed);
  job.facts.derive(fact::shaded_by, shades_of(shown), from, Status::assumed);
  if (ring) return;
  if (const auto there = lamp_of(job, setting, -*towards, missing)) {
    const auto other = teeth_of(look_at(setting, &*there), in_shadow);
    job.facts.derive(fact::in_shadow_other_side, other, from, Status::assumed);
  }
}

} // namespace norma::plan
