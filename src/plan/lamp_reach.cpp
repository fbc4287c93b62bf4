#include <algorithm>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

using model::Side;
using physics::Point;

/// From this azimuth on a view is a side view: the cheek can come between lamp and teeth.
constexpr Angle side_view = 20.0 * degree;

enum class LampAt { front_teeth, cheek, neither };
std::string_view to_text(LampAt at) {
  switch (at) {
  case LampAt::front_teeth: return "the front teeth";
  case LampAt::cheek: return "the cheek";
  case LampAt::neither: return "neither";
  }
  return "";
}

/// In a view from the right the front teeth lie at the right of the picture, in one from the left
/// at its left; the lamp rides on the camera, so a camera turned over takes it to the other side.
LampAt fixed_lamp_at(kit::LampSide side, Side seen_from, bool upside_down) {
  if (side == kit::LampSide::top || side == kit::LampSide::bottom) return LampAt::neither;
  const bool right = (side == kit::LampSide::right) != upside_down;
  return right == (seen_from == Side::right) ? LampAt::front_teeth : LampAt::cheek;
}

std::optional<LampAt> lamp_at(Job& job, Side seen_from) {
  const kit::Lamp& lamp = *job.out.chosen.lamp;
  const model::LampUse use = job.view.lamp.value_or({});
  if (lamp.moves.known() && lamp.moves.get() == kit::LampMoves::by_hand) {
    // A lamp that moves is put where the protocol wants it; unsaid, where it casts no shadow.
    return use.towards == model::LampTowards::cheek ? LampAt::cheek : LampAt::front_teeth;
  }
  if (!lamp.side.known()) {
    job.facts.set_unknown(fact::lamp_side, "side of the lens the lamp sits on");
    return std::nullopt;
  }
  if (job.facts.text(fact::camera_held) == "upright") {
    job.facts.set_unknown(fact::lamp_side, "which way the camera is turned when held upright");
    return std::nullopt;
  }
  const bool over = abs(*job.facts.get(fact::roll) - 180.0 * degree) < 1.0 * degree;
  return fixed_lamp_at(lamp.side.get(), seen_from, over);
}

/// The figure of the patient's left side laid over the right one.
Point as_on_right(Point p, Side seen_from) {
  if (seen_from == Side::left) p.x = -p.x;
  return p;
}

} // namespace

physics::MouthCorner corner_of(const model::Retractor& retractor) {
  namespace d = physics::defaults;
  if (retractor.tension == "firm")
    return {d::corner_side_firm.value * mm, d::corner_back_firm.value * mm};
  if (retractor.tension == "light") {
    return {d::corner_side_light.value * mm, d::corner_back_light.value * mm};
  }
  return {d::corner_side_even.value * mm, d::corner_back_even.value * mm};
}

void plan_lamp_reach(Job& job) {
  const kit::Lamp* lamp = job.out.chosen.lamp;
  const auto azimuth = job.facts.get(fact::azimuth);
  if (lamp == nullptr || !azimuth || job.view.taken_in_mirror || abs(*azimuth) < side_view) return;
  if (!lamp->kind.known()) {
    job.facts.set_unknown(fact::lamp_side, "kind of lamp");
    job.open("whether the lamp throws the cheek's shadow on the teeth", "kind of lamp");
    return;
  }
  if (lamp->kind.get() == kit::LampKind::ring || lamp->kind.get() == kit::LampKind::built_in) {
    return; // it lights from around the lens: what the lens sees is lit
  }
  const Side seen_from = *azimuth > Angle{} ? Side::right : Side::left;
  const auto at = lamp_at(job, seen_from);
  if (!at) {
    job.open("whether the lamp throws the cheek's shadow on the teeth",
             job.facts.find(fact::lamp_side)->why);
    return;
  }
  job.facts.set(fact::lamp_side, std::string(to_text(*at)), Status::measured, {&fact::roll});

  const text::Sourced<model::Retractor>& retractor =
      seen_from == Side::right ? job.view.right_retractor : job.view.left_retractor;
  const bool parts_known = lamp->offset.known() && retractor.known() &&
                           job.view.must_show.known() && job.facts.get(fact::working_distance) &&
                           job.facts.get(fact::pupil_distance);
  if (!parts_known) {
    const char* missing = !lamp->offset.known() ? "offset of the lamp from the lens"
                          : !retractor.known()  ? "retractor on the side that is shown"
                          : !job.facts.get(fact::working_distance) ? "working distance"
                                                                   : "focal length and ratio";
    job.open("whether the lamp throws the cheek's shadow on the teeth", missing);
    return;
  }
  std::string missing;
  const auto points = points_of(job, job.view.must_show.get(), missing);
  if (!points) return;

  Length last;
  Length teeth;
  Point middle;
  for (const physics::SurfacePoint& p : *points) {
    last = std::max(last, p.at.y);
    teeth = std::max(teeth, abs(p.at.x));
    middle = middle + p.at;
  }
  const double count = static_cast<double>(points->size());
  middle = {middle.x / count, middle.y / count, middle.z / count};
  if (job.view.centre.known()) {
    if (const physics::Crown* crown = crown_of(job, job.view.centre->first)) middle = crown->edge;
  }

  const physics::MouthCorner edge = corner_of(retractor.get());
  job.facts.set(fact::corner_side, edge.side, Status::assumed);
  job.facts.set(fact::corner_back, edge.back, Status::assumed);
  job.facts.set(fact::last_tooth_back, last, Status::assumed);
  const Length lamp_plane =
      *job.facts.get(fact::working_distance) + lamp->behind_front.value_or(0.0 * mm);
  const physics::Axes axes =
      physics::camera_axes(*azimuth, *job.facts.get(fact::elevation), Angle{});
  // Towards the picture's right in a view from the right, its left in one from the left.
  const physics::Vec front = seen_from == Side::right ? axes.right : -axes.right;
  const Point pupil = middle - axes.forward * *job.facts.get(fact::pupil_distance);
  const auto lamp_point = [&](double sign) {
    return middle - axes.forward * lamp_plane + front * (sign * lamp->offset.get());
  };
  const auto set = [&](const FactDef<Length>& def, Point source) {
    const auto back = physics::reach(edge, teeth, as_on_right(source, seen_from));
    if (back) {
      job.facts.derive(
          def, *back,
          {&fact::corner_side, &fact::corner_back, &fact::azimuth, &fact::working_distance});
    }
  };
  set(fact::view_reach, pupil);
  set(fact::front_light_reach, lamp_point(1.0));
  set(fact::light_reach, *at == LampAt::front_teeth ? lamp_point(1.0)
                         : *at == LampAt::cheek     ? lamp_point(-1.0)
                                                    : lamp_point(0.0));
}

} // namespace norma::plan
