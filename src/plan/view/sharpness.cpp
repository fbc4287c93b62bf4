#include <algorithm>
#include <cmath>

#include "physics/optics.hpp"
#include "placing/depth.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

using placing::depth_needed;
using placing::DepthNeeded;
using placing::FaceDepth;
using placing::reach_of;

/// Of what must be sharp; nothing (and what is missing) where it cannot be placed.
std::optional<std::vector<FaceDepth>> depths_of(const Job& job, const physics::Axes& axes,
                                                Said& missing) {
  const auto surfaces = surfaces_of(job, job.view.must_be_sharp.get(), missing);
  if (!surfaces) return std::nullopt;
  if (surfaces->empty()) {
    missing = missing::sharp_tooth_that_stands();
    return std::nullopt;
  }
  return placing::depths_of(at_rest(job), *surfaces, axes);
}

void set_blur(Job& job) {
  const auto& asked = job.view.allowed_blur;
  const physics::Default& usual = physics::defaults::blur;
  if (asked.known()) {
    job.facts.set(fact::allowed_blur, asked.get(), Status::asked);
  } else if (asked.broken()) {
    job.facts.set_broken(fact::allowed_blur);
  } else if (job.facts.needs(fact::allowed_blur, {&fact::sensor})) {
    const Size sensor = job.kit != nullptr ? job.kit->sensor.get() : job.protocol.sensor.get();
    job.facts.derive(fact::allowed_blur, physics::usual_blur(sensor), {&fact::sensor},
                     status_of(usual.origin));
  }
}

/// Range of the protocol and of the lens; both limits, or neither.
void set_range(Job& job) {
  const text::Sourced<model::ApertureRange>& asked = job.view.aperture;
  if (asked.broken()) {
    job.facts.set_broken(fact::widest_allowed);
    job.facts.set_broken(fact::narrowest_allowed);
    return;
  }
  std::optional<FNumber> widest;
  std::optional<FNumber> narrowest;
  Status status = Status::asked;
  if (asked.known()) {
    widest = asked->widest;
    narrowest = asked->narrowest;
  }
  if (job.kit != nullptr && job.kit->lens) {
    const kit::Lens& lens = *job.kit->lens;
    if (lens.widest.known())
      widest = widest ? std::max(*widest, lens.widest.get()) : lens.widest.get();
    if (lens.smallest.known()) {
      job.facts.set(fact::lens_narrowest, lens.smallest.get(), Status::measured);
      narrowest = narrowest ? std::min(*narrowest, lens.smallest.get()) : lens.smallest.get();
    }
    status = Status::measured;
  }
  if (!widest || !narrowest) {
    job.facts.set_unknown(fact::widest_allowed, missing::aperture_of_view_or_lens());
    job.facts.set_unknown(fact::narrowest_allowed, missing::aperture_of_view_or_lens());
    return;
  }
  job.facts.set(fact::widest_allowed, *widest, status);
  job.facts.set(fact::narrowest_allowed, *narrowest, status);
}

/// Focus plane: the named tooth's face, else the middle of the depth.
std::optional<Length> set_focus(Job& job, const std::vector<FaceDepth>& depths) {
  if (job.view.focus.broken()) {
    job.facts.set_broken(fact::focus);
    return std::nullopt;
  }
  if (!job.view.focus.known()) {
    job.facts.set(fact::focus, phrase::on_middle_of_depth(), Status::asked);
    return reach_of(depths).middle();
  }
  const model::Aim aim = job.view.focus.get();
  if (aim.thing) {
    job.facts.set_unknown(fact::focus, missing::where_lies(the(*aim.thing)));
    return std::nullopt;
  }
  const physics::Crown* first = crown_at(job, aim.first);
  const physics::Crown* second = crown_at(job, aim.second);
  if (first == nullptr || second == nullptr) {
    job.facts.set_unknown(fact::focus, missing::focused_tooth());
    return std::nullopt;
  }
  job.facts.set(fact::focus, place_of(aim), Status::asked);
  const placing::TeethPair teeth{first->tooth, second->tooth};
  return placing::depth_of(at_rest(job), teeth, surface_of(main_face(job.view)), *job.axes);
}

/// The focus plane in front of all that must be sharp, or behind it.
void set_focus_off(Job& job, const std::vector<FaceDepth>& depths, Length focus) {
  const auto [nearest, farthest] = reach_of(depths);
  const Length off = std::max(nearest - focus, focus - farthest);
  constexpr Length told = 0.5 * mm; // less is the curve of a tooth's face
  if (off > told)
    job.facts.derive(fact::focus_off, off, {&fact::focus, &fact::azimuth, &fact::elevation},
                     Status::assumed);
}

/// The marks of the range, widest first, in the lens's steps (thirds where it does not say).
std::vector<FNumber> marks_between(Job& job, FNumber widest, FNumber narrowest) {
  const bool halves = job.kit != nullptr && job.kit->lens &&
                      job.kit->lens->marks_per_stop.known() &&
                      job.kit->lens->marks_per_stop.get() == 2;
  const double per_stop = halves ? 2.0 : 3.0;
  std::vector<FNumber> out{widest};
  const double stops = 2.0 * std::log2(narrowest.value() / widest.value());
  for (int i = 1; i / per_stop < stops - 1e-6; ++i) {
    out.push_back(FNumber{widest.value() * std::exp2(i / per_stop / 2.0)});
  }
  if (narrowest > widest) out.push_back(narrowest);
  return out;
}

/// What would mend it: another focus, another ratio, fewer teeth.
void set_remedies(Job& job, const std::vector<FaceDepth>& depths, Length focus) {
  const FNumber n = *job.facts.get(fact::narrowest_allowed);
  const Length c = *job.facts.get(fact::allowed_blur);
  const Magnification m = *job.facts.get(fact::ratio);
  const PupilRatio p = *job.facts.get(fact::pupil_ratio);
  const auto f = job.facts.get(fact::focal_length);
  const std::vector<const FactRow*> from{&fact::narrowest_allowed, &fact::allowed_blur,
                                         &fact::ratio};
  const auto holds = [&](DepthNeeded need) {
    const auto number = physics::f_number_holding(need.near, need.far, c, m, p, f);
    return number && *number <= n;
  };

  const Length middle = reach_of(depths).middle();
  if (holds(depth_needed(depths, middle))) {
    const auto closest =
        std::min_element(depths.begin(), depths.end(), [&](const FaceDepth& a, const FaceDepth& b) {
          return abs(a.centre - middle) < abs(b.centre - middle);
        });
    job.facts.derive(fact::better_focus, phrase::on(closest->tooth), from);
    if (!holds(depth_needed(depths, closest->centre))) {
      job.facts.derive(fact::better_focus, phrase::on_middle_of_depth(), from);
    }
  }
  const DepthNeeded need = depth_needed(depths, focus);
  if (const auto ratio = physics::ratio_holding(need.near, need.far, n, c, p, f)) {
    job.facts.derive(fact::ratio_for_depth, physics::rounded_smaller(*ratio), from);
    job.facts.derive(fact::ratio_for_depth_asked, as_asked(job, *ratio),
                     {&fact::ratio_for_depth, &fact::ratio_asked});
  }
  std::vector<physics::Tooth> held;
  for (const FaceDepth& d : depths) {
    if (holds(depth_needed({&d, 1}, focus))) held.push_back(d.tooth);
  }
  if (!held.empty()) job.facts.derive(fact::teeth_held, held, from);
}

void set_depths(Job& job, FNumber n) {
  const auto depth =
      physics::depth_of_field(n, *job.facts.get(fact::allowed_blur), *job.facts.get(fact::ratio),
                              *job.facts.get(fact::pupil_ratio), job.facts.get(fact::focal_length));
  const std::vector<const FactRow*> from{&fact::allowed_blur, &fact::ratio, &fact::pupil_ratio};
  job.facts.derive(fact::near_depth, depth.near, from);
  if (depth.far) job.facts.derive(fact::far_depth, *depth.far, from);
}

/// What follows from the aperture that is set.
void set_consequences(Job& job, FNumber n) {
  const Magnification m = *job.facts.get(fact::ratio);
  const Length c = *job.facts.get(fact::allowed_blur);
  set_depths(job, n);
  const FNumber effective = physics::effective_f_number(n, m, *job.facts.get(fact::pupil_ratio));
  job.facts.derive(fact::effective_f_number, effective,
                   {&fact::aperture, &fact::ratio, &fact::pupil_ratio});
  job.facts.derive(fact::diffraction_blur, physics::diffraction_blur(effective),
                   {&fact::effective_f_number}, Status::handbook);
  if (const auto depth = physics::depth_with_diffraction(effective, c, m)) {
    job.facts.derive(fact::depth_with_diffraction, *depth,
                     {&fact::effective_f_number, &fact::allowed_blur, &fact::ratio});
  }
  const double bellows = physics::bellows_factor(m, *job.facts.get(fact::pupil_ratio));
  job.facts.derive(fact::sharpest_aperture,
                   FNumber{physics::sharpest_effective_f_number(c).value() / bellows},
                   {&fact::allowed_blur, &fact::ratio, &fact::pupil_ratio}, Status::handbook);
}

/// The first mark of the range that is no wider than `needed` and than what the flash can be turned
/// down to. False where there is none.
bool set_first_aperture(Job& job, FNumber widest, FNumber narrowest,
                        std::optional<FNumber> needed = std::nullopt) {
  std::vector<const FactRow*> from{&fact::widest_allowed, &fact::narrowest_allowed};
  if (needed) from.push_back(&fact::aperture_needed);
  if (job.stopped_down_to) {
    const FNumber within = std::min(*job.stopped_down_to, narrowest);
    needed = needed ? std::max(*needed, within) : within;
    job.facts.set(fact::aperture_for_flash, *job.stopped_down_to, Status::measured);
    from.push_back(&fact::aperture_for_flash);
  }
  constexpr double slack = 1.0 + 1e-9;
  for (const FNumber mark : marks_between(job, widest, narrowest)) {
    if (needed && mark.value() * slack < needed->value()) continue;
    job.facts.derive(fact::aperture, mark, from);
    set_consequences(job, mark);
    return true;
  }
  return false;
}

/// Where no depth is known that it must hold: the first mark of the range that was asked for. What
/// the lens has is no choice.
void set_aperture_without_depth(Job& job, FNumber widest, FNumber narrowest) {
  if (job.view.aperture.known() || widest == narrowest) {
    set_first_aperture(job, widest, narrowest);
  } else {
    job.facts.set_unknown(fact::aperture, missing::aperture_or_sharp());
  }
}

/// Asked for and had, where they do not meet.
void set_reach(Job& job) {
  const model::ApertureRange& asked = job.view.aperture.get();
  job.facts.set(fact::aperture_asked,
                asked.widest == asked.narrowest ? phrase::aperture(asked.widest)
                                                : phrase::apertures(asked.widest, asked.narrowest),
                Status::asked);
  const kit::Lens& lens = *job.kit->lens;
  const bool one =
      lens.widest.known() && lens.smallest.known() && lens.widest.get() == lens.smallest.get();
  const bool too_narrow = lens.smallest.known() && asked.widest > lens.smallest.get();
  job.facts.set(fact::aperture_reach,
                one          ? phrase::has_only(lens.smallest.get())
                : too_narrow ? phrase::it_ends_at(lens.smallest.get())
                             : phrase::it_ends_at(lens.widest.get()),
                Status::measured);
}

/// Without a focal length the depth is worked out as for an endless one: a real lens is sharp a
/// little less far in front of the focus and farther behind it. Could one hold the teeth?
bool may_hold_with_a_lens(const Job& job, const DepthNeeded& need, FNumber narrowest) {
  const auto number = physics::f_number_holding(
      need.near, need.far, *job.facts.get(fact::allowed_blur), *job.facts.get(fact::ratio),
      *job.facts.get(fact::pupil_ratio), physics::defaults::shortest_lens.value * mm);
  return number && *number <= narrowest;
}

} // namespace

void plan_sharpness(Job& job) {
  const auto& shown = job.view.must_show;
  if (job.view.must_be_sharp.absent() && job.view.things_sharp.absent() && shown.known() &&
      !shown->empty())
    job.open(question::shown_sharp, missing::what_must_be_sharp());
  set_blur(job);
  set_range(job);
  if (!job.facts.needs(fact::aperture, {&fact::widest_allowed, &fact::narrowest_allowed,
                                        &fact::ratio, &fact::allowed_blur})) {
    if (job.view.must_be_sharp.known()) {
      job.facts.needs(fact::near_needed, {&fact::aperture});
    }
    return;
  }
  const FNumber widest = *job.facts.get(fact::widest_allowed);
  const FNumber narrowest = *job.facts.get(fact::narrowest_allowed);
  const std::vector<const FactRow*> range{&fact::widest_allowed, &fact::narrowest_allowed};
  if (widest > narrowest) {
    set_reach(job);
    job.facts.set_impossible(fact::aperture, phrase::lens_has_no_aperture(),
                             std::optional<FNumber>(), range);
    return;
  }
  const text::Sourced<model::Faces>& sharp = job.view.must_be_sharp;
  if (sharp.broken()) {
    job.facts.set_broken(fact::near_needed);
    return;
  }
  if (sharp.absent()) {
    set_aperture_without_depth(job, widest, narrowest);
    return;
  }
  Said missing = missing::camera_looks_from();
  std::optional<std::vector<FaceDepth>> depths;
  if (job.axes) depths = depths_of(job, *job.axes, missing);
  std::optional<Length> focus;
  if (depths) focus = set_focus(job, *depths);
  if (!focus) {
    if (depths) missing = missing::focused_tooth();
    job.facts.set_unknown(fact::near_needed, missing);
    set_aperture_without_depth(job, widest, narrowest);
    return;
  }

  const DepthNeeded need = depth_needed(*depths, *focus);
  job.facts.derive(fact::near_needed, need.near, {&fact::focus, &fact::azimuth, &fact::elevation},
                   Status::assumed);
  job.facts.derive(fact::far_needed, need.far, {&fact::focus, &fact::azimuth, &fact::elevation},
                   Status::assumed);
  set_focus_off(job, *depths, *focus);
  const auto n = physics::f_number_holding(
      need.near, need.far, *job.facts.get(fact::allowed_blur), *job.facts.get(fact::ratio),
      *job.facts.get(fact::pupil_ratio), job.facts.get(fact::focal_length));
  const std::vector<const FactRow*> from{&fact::near_needed, &fact::far_needed, &fact::allowed_blur,
                                         &fact::ratio, &fact::pupil_ratio};
  if (n) job.facts.derive(fact::aperture_needed, *n, from);
  if (n && set_first_aperture(job, widest, narrowest, *n)) return;
  if (!job.facts.get(fact::focal_length) && may_hold_with_a_lens(job, need, narrowest)) {
    job.facts.set_unknown(fact::aperture, missing::focal_length());
    return;
  }
  job.facts.set_impossible(fact::aperture, phrase::no_aperture_holds(), n,
                           {&fact::near_needed, &fact::far_needed, &fact::narrowest_allowed});
  set_depths(job, narrowest);
  set_remedies(job, *depths, *focus);
}

} // namespace norma::plan
