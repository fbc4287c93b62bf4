// What the kit's lamp lights of what the lens sees.
#include "placing/arch_mirror.hpp"
#include "placing/lamp.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
using placing::CameraLamp;
using placing::Hider;

List shades_of(const std::vector<Shown>& shown) {
  List out;
  for (const Shown& s : shown) {
    if (!placing::in_shadow(s)) continue;
    if (s.shade == Hider::turned_from_lamp) {
      add_once(out, phrase::turned_from_lamp());
      continue;
    }
    add_once(out, phrase::behind(s.shade == Hider::cheek ? phrase::the_cheek()
                                 : s.shade == Hider::lip ? phrase::a_lip()
                                 : s.shade == Hider::gum ? phrase::gum()
                                                         : phrase::another_tooth()));
  }
  return out;
}

namespace {

/// Which way from the lens a lamp beside it stands; nothing where its side is not known.
std::optional<CameraLamp::Side> side_of_lamp(const Job& job, const kit::Lamp& lamp) {
  const auto side = job.facts.get(fact::lamp_side);
  if (side && *side != LampAt::neither)
    return *side == LampAt::front_teeth ? CameraLamp::Side::front_teeth : CameraLamp::Side::cheek;
  const bool moves = lamp.moves.known() && lamp.moves.get() == kit::LampMoves::by_hand;
  if (!lamp.side.known()) return moves ? std::optional(CameraLamp::Side::right) : std::nullopt;
  switch (lamp.side.get()) {
  case kit::LampSide::left: return CameraLamp::Side::left;
  case kit::LampSide::right: return CameraLamp::Side::right;
  case kit::LampSide::top: return CameraLamp::Side::above;
  case kit::LampSide::bottom: return CameraLamp::Side::below;
  }
  return std::nullopt;
}

/// Where in the picture, as shot, the mirror shows the lamp; and where it would not.
void find_lamp_in_mirror(Job& job, const Placed& view) {
  const Recording one(job.facts);
  const auto at = placing::lamp_in_mirror(view.setting, view.pose);
  if (!at) return;
  if (const auto third = placing::third_of(view.setting, view.pose, *at)) {
    const int part = 3 * (third->row + 1) + third->column + 1;
    job.facts.put(fact::lamp_in_mirror_at, static_cast<PicturePart>(part));
  }
  // An arch mirror opened otherwise, the camera where the protocol has it, else square to the arch.
  if (view.setting.mirror->use != placing::MirrorUse::over_arch) return;
  read_least_seen(job);
  job.facts.find(fact::turned_limit);
  job.facts.find(fact::mouth_opening);
  const auto angle = placing::nearest_good_angle(view.setting, view.pose, [&](const Pose& other) {
    const auto all = [&](const std::vector<Shown>& shown) {
      return std::all_of(shown.begin(), shown.end(), [&](const Shown& s) {
        return physics::enough_of(s) && s.obliquity <= view.setting.limits.turned;
      });
    };
    return placing::look_that_is(all, view.setting, other) &&
           !placing::shows_lamp(view.setting, other);
  });
  if (angle) job.facts.put(fact::mirror_angle_without_lamp, *angle);
}

/// Held upright the camera takes heads beside the lens to its top and bottom: turned left or right
/// is the same to two alike ones.
CameraLamp::Side side_of_heads(const Job& job, const kit::Lamp& lamp) {
  const bool upright = job.facts.get(fact::camera_held) == CameraHeld::upright;
  const bool above = lamp.heads.value_or({}) == kit::LampHeads::top_and_bottom;
  return above != upright ? CameraLamp::Side::above : CameraLamp::Side::right;
}

void set_distance_to_aim(Job& job, const Placed& view, const kit::Lamp& lamp) {
  const Recording one(job.facts);
  job.facts.told_by(view.read);
  job.facts.put(fact::lamp_distance_to_aim,
                *job.facts.get(fact::working_distance) + lamp_behind_front(lamp));
}

} // namespace

namespace {

std::optional<CameraLamp> camera_lamp_of(const Job& job, const kit::Lamp& lamp, Said& missing) {
  if (!lamp.kind.known()) {
    missing = missing::kind_of_lamp();
    return std::nullopt;
  }
  CameraLamp out;
  const kit::LampKind kind = lamp.kind.get();
  const bool ring = kind == kit::LampKind::ring;
  const bool built_in = kind == kit::LampKind::built_in;
  const bool twin = kind == kit::LampKind::twin;
  out.kind = ring       ? CameraLamp::Kind::ring
             : built_in ? CameraLamp::Kind::built_in
             : twin     ? CameraLamp::Kind::twin
                        : CameraLamp::Kind::beside;
  if (twin) {
    out.side = side_of_heads(job, lamp);
  } else if (!ring && !built_in) {
    const auto side = side_of_lamp(job, lamp);
    if (!side) {
      const Fact* f = job.facts.find(fact::lamp_side);
      missing = f == nullptr ? missing::side_of_lamp() : f->why;
      return std::nullopt;
    }
    out.side = *side;
  }
  const auto working = job.facts.get(fact::working_distance);
  if (!working) {
    missing = missing::working_distance();
    return std::nullopt;
  }
  out.distance = *working + lamp_behind_front(lamp);
  if (built_in) return out;
  const text::Sourced<Length>& off_axis = ring   ? lamp.radius
                                          : twin ? lamp.heads_apart
                                                 : lamp.offset;
  if (!off_axis.known()) {
    missing = ring   ? missing::ring_radius()
              : twin ? missing::heads_apart()
                     : missing::lamp_offset();
    return std::nullopt;
  }
  out.off_axis = twin ? 0.5 * off_axis.get() : off_axis.get();
  return out;
}

} // namespace

Said set_lamps(const Job& job, placing::Setting& setting) {
  Said missing;
  const kit::Lamp* lamp = job.lamp();
  if (lamp == nullptr) return missing; // said by the light
  setting.lamp = camera_lamp_of(job, *lamp, missing);
  const kit::Lamp* joined = job.out.chosen.joined_lamp;
  if (!setting.lamp || joined == nullptr) return missing;
  setting.joined = camera_lamp_of(job, *joined, missing);
  const auto first = setting.joined ? light_at_aim(job, *lamp, missing) : std::nullopt;
  const auto second = first ? light_at_aim(job, *joined, missing) : std::nullopt;
  if (second) {
    setting.lamp->light = *first;
    setting.joined->light = *second;
  } else {
    setting.lamp.reset();
  }
  return missing;
}

void light_scene(Job& job, const Placed& view) {
  const Recording one(job.facts);
  const kit::Lamp* lamp = job.lamp();
  if (lamp == nullptr) return; // said by the light
  if (lamp->kind.known() && job.facts.has(fact::working_distance))
    set_distance_to_aim(job, view, *lamp);
  if (!view.lamp) return job.open(question::lamp_shadow, view.no_lamp);
  job.facts.use(view.read);
  job.facts.use(view.lamp_read);
  job.out.scene->lamp = view.lamp->points;
  find_lamp_in_mirror(job, view);
  const bool joined = view.setting.joined.has_value();
  if (joined || view.setting.lamp->kind == CameraLamp::Kind::twin)
    job.facts.take(physics::defaults::shadow_filled);
  // Around the lens: what it sees is lit.
  if (!joined && view.setting.lamp->kind == CameraLamp::Kind::built_in) return;
  if (const auto evenness = placing::light_evenness(job.out.shown))
    job.facts.put(fact::light_evenness, *evenness);
  const auto dark = teeth_of(job.out.shown, placing::in_shadow);
  if (dark.empty()) return;
  job.limit(fact::least_lit, physics::defaults::lit_share);
  job.facts.put(fact::teeth_in_shadow, dark);
  job.facts.put(fact::shaded_by, shades_of(job.out.shown));
  if (joined || view.setting.lamp->kind != CameraLamp::Kind::beside) return; // it has no other side
  const auto there = placing::lamp_of(view.setting, view.pose, true);
  job.facts.put(fact::in_shadow_other_side,
                teeth_of(placing::look_at(view.setting, view.pose, &*there, physics::fine_pieces),
                         placing::in_shadow));
}

} // namespace norma::plan
