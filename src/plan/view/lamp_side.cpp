#include "plan/job.hpp"

namespace norma::plan {
namespace {

using model::Side;

/// From this azimuth on a view is a side view: the cheek can come between lamp and teeth.
constexpr Angle side_view = 20.0 * degree;

/// In a view from the right the front teeth lie at the right of the picture, in one from the left
/// at its left; the lamp rides on the camera, so a camera turned over takes it to the other side.
LampAt fixed_lamp_at(kit::LampSide side, Side seen_from, bool upside_down) {
  if (side == kit::LampSide::top || side == kit::LampSide::bottom) return LampAt::neither;
  const bool right = (side == kit::LampSide::right) != upside_down;
  return right == (seen_from == Side::right) ? LampAt::front_teeth : LampAt::cheek;
}

std::optional<LampAt> lamp_at(Job& job, Side seen_from) {
  const kit::Lamp& lamp = *job.lamp();
  const model::LampUse use = job.view.lamp.value_or({});
  if (lamp.moves.known() && lamp.moves.get() == kit::LampMoves::by_hand) {
    // A lamp that moves is put where the protocol wants it; unsaid, where it casts no shadow.
    return use.towards == model::LampTowards::cheek ? LampAt::cheek : LampAt::front_teeth;
  }
  if (!lamp.side.known()) {
    job.facts.put_unknown(fact::lamp_side, missing::side_of_lamp());
    return std::nullopt;
  }
  if (job.facts.get(fact::camera_held) == CameraHeld::upright) {
    job.facts.put_unknown(fact::lamp_side, missing::upright_turn());
    return std::nullopt;
  }
  const bool over = abs(*job.facts.get(fact::roll) - 180.0 * degree) < 1.0 * degree;
  return fixed_lamp_at(lamp.side.get(), seen_from, over);
}

kit::LampSide turned_over(kit::LampSide side) {
  switch (side) {
  case kit::LampSide::left: return kit::LampSide::right;
  case kit::LampSide::right: return kit::LampSide::left;
  case kit::LampSide::top: return kit::LampSide::bottom;
  case kit::LampSide::bottom: return kit::LampSide::top;
  }
  return side;
}

/// A camera turned over takes a lamp that is fixed to it to the other side.
void set_turned(Job& job) {
  const Recording one(job.facts);
  const kit::Lamp* lamp = job.lamp();
  if (lamp == nullptr || !lamp->side.known()) return;
  if (lamp->moves.known() && lamp->moves.get() == kit::LampMoves::by_hand) return;
  // Behind the head the picture's top is the patient's chin, and the camera the right way up.
  if (!job.view.camera.known() || !job.view.camera->upside_down) return;
  job.facts.put(fact::lamp_turned, turned_over(lamp->side.get()));
}

void set_side(Job& job) {
  const Recording one(job.facts);
  const kit::Lamp* lamp = job.lamp();
  const auto azimuth = job.facts.get(fact::azimuth);
  if (lamp == nullptr || !azimuth || job.view.taken_in_mirror || abs(*azimuth) < side_view) return;
  if (!lamp->kind.known()) return job.facts.put_unknown(fact::lamp_side, missing::kind_of_lamp());
  if (job.out.chosen.joined_lamp != nullptr) return; // another one burns elsewhere
  if (lamp->kind.get() != kit::LampKind::point && lamp->kind.get() != kit::LampKind::clip_on)
    return; // it has no side, or a head on each
  const Side seen_from = *azimuth > Angle{} ? Side::right : Side::left;
  if (const auto at = lamp_at(job, seen_from)) job.facts.put(fact::lamp_side, *at);
}

} // namespace

bool lamp_lies_wrong(const model::View& view, LampAt at) {
  if (!view.lamp.known()) return false;
  const model::LampTowards towards = view.lamp->towards;
  return (towards == model::LampTowards::front_teeth && at == LampAt::cheek) ||
         (towards == model::LampTowards::cheek && at == LampAt::front_teeth);
}

void plan_lamp_side(Job& job) {
  set_turned(job);
  set_side(job);
}

} // namespace norma::plan
