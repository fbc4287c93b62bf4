// How well what must show uses the frame, and whether pictures of this kit have the shape asked
// for.
#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

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
  if (!job.has_kit() || !job.facts.has(fact::sensor) || !job.facts.has(fact::reference_sensor))
    return;
  job.facts.work_out(fact::shape_asked, shape_of, fact::reference_sensor);
  job.facts.work_out(fact::shape_here, shape_of, fact::sensor);
  job.facts.work_out(
      fact::shape_apart,
      [](Size here, Size asked) {
        const double a = here.width / here.height;
        const double b = asked.width / asked.height;
        return Share{std::max(a, b) / std::min(a, b) - 1.0};
      },
      fact::sensor, fact::reference_sensor);
}

} // namespace

void plan_frame_use(Job& job) {
  {
    const Recording one(job.facts);
    set_shapes(job);
  }
  for (const FactRow* row : std::initializer_list<const FactRow*>{
           &fact::field_width, &fact::field_height, &fact::needed_width, &fact::needed_height}) {
    if (!job.facts.has(*row)) return;
  }
  job.facts.work_out(
      fact::field_use,
      [](Length need_width, Length width, Length need_height, Length height) {
        return Share{std::max(need_width / width, need_height / height)};
      },
      fact::needed_width, fact::field_width, fact::needed_height, fact::field_height);
  job.give_limit(fact::field_use_least, physics::defaults::field_used);
  job.facts.work_out(
      fact::least_spare,
      [](Length width, Length need_width, Length height, Length need_height) {
        return 0.5 * std::min(width - need_width, height - need_height);
      },
      fact::field_width, fact::needed_width, fact::field_height, fact::needed_height);
  job.give_limit(fact::least_spare_wanted, physics::defaults::room_to_spare);
  if (!job.facts.has(fact::ratio)) return;
  job.facts.work_out(
      fact::ratio_that_fits_other_hold,
      [](Magnification m, Length width, Length height, Length need_width, Length need_height) {
        const double scale = std::min(height / need_width, width / need_height);
        return physics::rounded_smaller(Magnification{m.value() * scale});
      },
      fact::ratio, fact::field_width, fact::field_height, fact::needed_width, fact::needed_height);
}

void plan_ratios(Plan& plan) {
  enum class By { ratio, width, height };
  std::map<std::tuple<model::ViewKind, By, double>, int> counts;
  const auto said = [](const ViewPlan& v) {
    return v.view->ratio.known() || v.view->field.known();
  };
  const auto key = [](const ViewPlan& v) {
    if (v.view->ratio.known()) return std::tuple{v.view->kind, By::ratio, v.view->ratio->value()};
    return std::tuple{v.view->kind, v.view->field->high ? By::height : By::width,
                      v.view->field->size.in(mm)};
  };
  for (const ViewPlan& v : plan.views) {
    if (said(v)) ++counts[key(v)];
  }
  for (ViewPlan& v : plan.views) {
    if (said(v)) facts::Recorder(v.company).put(fact::views_with_ratio, counts[key(v)]);
  }
}

} // namespace norma::plan
