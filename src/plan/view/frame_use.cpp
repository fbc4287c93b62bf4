// How well what must show uses the frame, and whether pictures of this kit have the shape asked
// for.
#include <algorithm>
#include <cmath>
#include <map>

#include "physics/optics.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// `3:2`, `4:3`, else with two decimals: `1.50:1`.
Said shape_of(Size s) {
  const double shape = std::max(s.width, s.height) / std::min(s.width, s.height);
  constexpr double same = 0.01;
  for (int short_side = 1; short_side <= 9; ++short_side) {
    const double long_side = shape * short_side;
    if (std::abs(long_side - std::round(long_side)) <= same * short_side)
      return phrase::shape(static_cast<int>(std::round(long_side)), short_side);
  }
  return phrase::shape(diag::Measure{physics::Kind::decimal, shape}, 1);
}

void set_shapes(Job& job) {
  if (job.kit == nullptr || !job.kit->sensor.known() || !job.protocol.sensor.known()) return;
  const Size here = job.kit->sensor.get();
  const Size asked = job.protocol.sensor.get();
  job.facts.set(fact::shape_asked, shape_of(asked), Status::asked, {&fact::reference_sensor});
  job.facts.set(fact::shape_here, shape_of(here), Status::measured, {&fact::sensor});
  const double a = here.width / here.height;
  const double b = asked.width / asked.height;
  job.facts.derive(fact::shape_apart, Share{std::max(a, b) / std::min(a, b) - 1.0},
                   {&fact::shape_asked, &fact::shape_here});
}

} // namespace

void plan_frame_use(Job& job) {
  set_shapes(job);
  const auto width = job.facts.get(fact::field_width);
  const auto height = job.facts.get(fact::field_height);
  const auto need_width = job.facts.get(fact::needed_width);
  const auto need_height = job.facts.get(fact::needed_height);
  if (!width || !height || !need_width || !need_height) return;
  const std::vector<const FactRow*> from{&fact::field_width, &fact::needed_width,
                                         &fact::field_height, &fact::needed_height};
  job.facts.derive(fact::field_use, Share{std::max(*need_width / *width, *need_height / *height)},
                   from);
  const LimitValue least = job.limit(physics::defaults::field_used);
  job.facts.set(fact::field_use_least, Share{least.value}, least.status);
  job.facts.derive(fact::least_spare, 0.5 * std::min(*width - *need_width, *height - *need_height),
                   from);
  const LimitValue room = job.limit(physics::defaults::room_to_spare);
  job.facts.set(fact::least_spare_wanted, room.value * mm, room.status);
  if (const auto ratio = job.facts.get(fact::ratio)) {
    const double scale = std::min(*height / *need_width, *width / *need_height);
    job.facts.derive(fact::ratio_that_fits_other_hold,
                     physics::rounded_smaller(Magnification{ratio->value() * scale}), from);
  }
}

void plan_ratios(Plan& plan) {
  std::map<std::pair<model::ViewKind, double>, int> counts;
  const auto key = [](const ViewPlan& v) {
    return std::pair{v.view->kind, v.view->ratio.get().value()};
  };
  for (const ViewPlan& v : plan.views) {
    if (v.view->ratio.known()) ++counts[key(v)];
  }
  for (ViewPlan& v : plan.views) {
    if (v.view->ratio.known()) v.company.set(fact::views_with_ratio, counts[key(v)], Status::asked);
  }
}

} // namespace norma::plan
