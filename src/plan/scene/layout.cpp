// How what must show lies in the frame.
#include <algorithm>
#include <cmath>

#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

const std::vector<const FactRow*>& inputs() {
  static const std::vector<const FactRow*> list{&fact::azimuth, &fact::elevation,
                                                &fact::pupil_distance, &fact::field_width};
  return list;
}

void set_margins(Job& job, const Setting& setting, const physics::Pinhole& lens) {
  Said missing;
  const auto points = points_of(job, job.view.must_show.get(), missing);
  if (!points) return;
  const double m = setting.ratio.value();
  const Length half_width = 0.5 * setting.sensor.width;
  const Length half_height = 0.5 * setting.sensor.height;
  Length left = half_width, right = half_width, top = half_height, bottom = half_height;
  for (const physics::SurfacePoint& p : *points) {
    const auto at = physics::project(p.at, lens);
    if (!at) return;
    left = std::min(left, half_width + at->right);
    right = std::min(right, half_width - at->right);
    top = std::min(top, half_height - at->up);
    bottom = std::min(bottom, half_height + at->up);
  }
  job.facts.derive(fact::margin_left, left / m, inputs(), Status::assumed);
  job.facts.derive(fact::margin_right, right / m, inputs(), Status::assumed);
  job.facts.derive(fact::margin_top, top / m, inputs(), Status::assumed);
  job.facts.derive(fact::margin_bottom, bottom / m, inputs(), Status::assumed);
}

/// The biting edge of a tooth in the picture.
std::optional<physics::SensorPoint> edge_in_picture(const Job& job, physics::Tooth tooth,
                                                    const physics::Pinhole& lens) {
  const physics::Crown* crown = crown_of(job, tooth);
  if (crown == nullptr) return std::nullopt;
  return physics::project(crown->edge, lens);
}

/// Of the farthest pair of teeth that are named on both sides, and of the incisors between them.
void set_lie(Job& job, const Setting& setting, const physics::Pinhole& lens) {
  std::optional<physics::Tooth> farthest;
  for (const physics::Wanted& w : setting.wanted) {
    const bool both = std::any_of(setting.wanted.begin(), setting.wanted.end(),
                                  [&](const auto& o) { return o.tooth == w.tooth.other_side(); });
    if (!both || !w.tooth.is_right()) continue;
    if (!farthest || w.tooth.position() > farthest->position()) farthest = w.tooth;
  }
  if (!farthest || farthest->position() < 2) return;
  const auto right = edge_in_picture(job, *farthest, lens);
  const auto left = edge_in_picture(job, farthest->other_side(), lens);
  const auto middle_right =
      edge_in_picture(job, *physics::Tooth::from_iso(farthest->is_upper() ? 11 : 41), lens);
  const auto middle_left =
      edge_in_picture(job, *physics::Tooth::from_iso(farthest->is_upper() ? 21 : 31), lens);
  if (!right || !left || !middle_right || !middle_left) return;
  const Length across = left->right - right->right;
  const Length up = left->up - right->up;
  const double whole = std::hypot(across.in(mm), up.in(mm));
  if (whole <= 0) return;
  // Along the line through the pair, whichever way the picture lies: upside down is not askew.
  double askew = std::atan2(up.in(mm), std::abs(across.in(mm)));
  job.facts.derive(fact::cant, askew * radian, inputs(), Status::assumed);
  const Length centre = 0.5 * (middle_right->right + middle_left->right);
  const Length height = 0.5 * (middle_right->up + middle_left->up);
  const Length to_right = abs(right->right - centre);
  const Length to_left = abs(left->right - centre);
  job.facts.derive(fact::asymmetry, Share{(to_right - to_left) / (to_right + to_left)}, inputs(),
                   Status::assumed);
  const Length line = 0.5 * (right->up + left->up);
  job.facts.derive(fact::bow, (height - line) / setting.ratio.value(), inputs(), Status::assumed);
}

} // namespace

void lay_out(Job& job, const Setting& setting) {
  const physics::Pinhole lens = eye_of(setting).lens;
  set_margins(job, setting, lens);
  set_lie(job, setting, lens);
  const auto cut = teeth_of(job.out.shown, [](const Shown& s) { return s.framed < 1.0; });
  if (!cut.empty()) job.facts.derive(fact::teeth_cut, cut, inputs(), Status::assumed);
}

} // namespace norma::plan
