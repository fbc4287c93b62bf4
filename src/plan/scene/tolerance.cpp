// The view's own tolerance, held against its margins.
#include <algorithm>

#include "facts/off_terms.hpp"
#include "margins/margin.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

using margins::Error;

/// What breaks within a tolerance (degrees or millimetres), and up to where nothing does.
struct Within {
  const margins::Standing& planned;
  const margins::Judge& judge;
  List beyond{};

  double held(Error what, double tolerance) {
    double least = tolerance;
    for (const bool more : {false, true}) {
      const auto margin = margins::margin_within(planned, judge, what, more, tolerance);
      if (!margin) continue;
      least = std::min(least, margin->size);
      beyond.items.emplace_back(
          phrase::off_beyond(term_of(what), phrase::off_then(facts::size_said(what, margin->size),
                                                             term_of(margin->way),
                                                             facts::broken_said(*margin->breaks))));
    }
    return least;
  }
};

} // namespace

void try_tolerance(Job& job, const Placed& placed) {
  const auto& angle = job.view.tolerance_angle;
  const auto& distance = job.view.tolerance_distance;
  if (!angle.known() && !distance.known()) return;
  const Recording one(job.facts);
  if (angle.known()) job.facts.give_asked(fact::camera_tolerance, angle.get());
  if (distance.known()) job.facts.give_asked(fact::camera_distance_tolerance, distance.get());
  // It fails as planned, and that is told already: by the look at it, or by what that cannot tell.
  if (placing::fails(job.out.shown, placed.setting.limits)) return;
  const auto planned = margins::standing(placed.setting, placed.pose);
  const auto judge = margins::judge_for(planned);
  if (!judge) return;
  job.facts.use(placed.read);
  job.facts.use(placed.lamp_read);
  job.facts.use(placed.sharp_read);
  job.facts.find(fact::turned_limit);
  job.limit(fact::least_lit, physics::defaults::lit_share);
  Within within{planned, *judge};
  within.beyond.semicolons = true;
  if (angle.known()) {
    job.facts.find(fact::camera_tolerance);
    const double asked = angle.get().in(degree);
    const double held = std::min(within.held(Error::camera_sideways, asked),
                                 within.held(Error::camera_height, asked));
    if (held < asked) job.facts.put(fact::camera_angle_held, facts::size_told(held) * degree);
  }
  if (distance.known()) {
    job.facts.find(fact::camera_distance_tolerance);
    const double asked = distance.get().in(mm);
    const double held = within.held(Error::camera_distance, asked);
    if (held < asked) job.facts.put(fact::camera_distance_held, facts::size_told(held) * mm);
  }
  if (!within.beyond.items.empty()) job.facts.put(fact::beyond_tolerance, within.beyond);
}

} // namespace norma::plan
