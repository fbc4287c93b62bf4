#include <algorithm>
#include <cmath>

#include "facts/mouth_terms.hpp"
#include "physics/optics.hpp"
#include "placing/depth.hpp"
#include "plan/job.hpp"
#include "plan/view/apertures.hpp"

namespace norma::plan {
namespace {

using placing::depth_needed;
using placing::DepthNeeded;
using placing::FaceDepth;
using placing::reach_of;

/// Of what must be sharp, that tooth taken as this one; nothing (and what is missing) where it
/// cannot be placed.
std::optional<std::vector<FaceDepth>> depths_of(const Job& job, const physics::Axes& axes,
                                                std::optional<physics::Tooth> tooth,
                                                Said& missing) {
  const model::View& view = job.view;
  const NamedSurfaces surfaces =
      surfaces_of(job, with_that_tooth(job, view.must_be_sharp, view.things_sharp, tooth));
  if (surfaces.placed.empty()) {
    missing = surfaces.why_none(missing::sharp_tooth_that_stands);
    return std::nullopt;
  }
  return placing::depths_of(at_rest(job), surfaces.placed, axes, band_of(view.sharp_third));
}

/// Lens and ratio as the depth hangs on them.
struct Optics {
  Length blur;
  Magnification ratio;
  PupilRatio pupil;
  std::optional<Length> focal_length; // nothing: as for an endless one

  [[nodiscard]] std::optional<FNumber> holding(DepthNeeded need) const {
    return physics::f_number_holding(need.near, need.far, blur, ratio, pupil, focal_length);
  }
  /// With the focus plane there.
  [[nodiscard]] std::optional<FNumber> holding(std::span<const FaceDepth> depths,
                                               Length focus) const {
    return holding(depth_needed(depths, focus));
  }
  /// No other focus takes less stopping down.
  [[nodiscard]] Length best_focus(std::span<const FaceDepth> depths) const {
    return placing::best_focus(reach_of(depths), focal_length, ratio, pupil);
  }
};
/// They are known.
Optics optics_of(const Job& job) {
  return {*job.facts.get(fact::allowed_blur), *job.facts.get(fact::ratio),
          *job.facts.get(fact::pupil_ratio), job.facts.get(fact::focal_length)};
}

/// Focus plane: the named tooth's face, else where the least stopping down does; that tooth taken
/// as this one.
std::optional<Length> set_focus(Job& job, const std::vector<FaceDepth>& depths,
                                std::optional<physics::Tooth> tooth) {
  const auto& asked = job.view.focus;
  if (asked.broken()) {
    job.facts.put_broken(fact::focus);
    return std::nullopt;
  }
  if (!asked.known()) {
    job.facts.put_asked(fact::focus, phrase::on_middle_of_depth());
    return optics_of(job).best_focus(depths);
  }
  const model::Aim aim = with_that_tooth(asked.get(), tooth);
  if (aim.thing) {
    job.facts.put_unknown(fact::focus, missing::where_lies(the(*asked->thing)));
    return std::nullopt;
  }
  const auto teeth = pair_of(job, aim);
  if (!teeth) {
    job.facts.put_unknown(fact::focus, missing::focused_tooth());
    return std::nullopt;
  }
  job.facts.put_asked(fact::focus, place_of(asked.get()));
  return placing::depth_of(at_rest(job), *teeth, surface_of(main_face(job.view)), *job.axes());
}

/// The focus plane in front of all that must be sharp, or behind it.
void set_focus_off(Job& job, const std::vector<FaceDepth>& depths, Length focus) {
  const auto [nearest, farthest] = reach_of(depths);
  const Length off = std::max(nearest - focus, focus - farthest);
  constexpr Length told = 0.5 * mm; // less is the curve of a tooth's face
  if (off > told) job.facts.put(fact::focus_off, off);
}

/// The marks of the range, widest first, in the lens's steps (thirds where it does not say).
std::vector<FNumber> marks_between(Job& job, FNumber widest, FNumber narrowest) {
  const double per_stop = marks_per_stop(job.kit());
  std::vector<FNumber> out{widest};
  const double stops = 2.0 * std::log2(narrowest.value() / widest.value());
  for (int i = 1; i / per_stop < stops - 1e-6; ++i) {
    out.push_back(FNumber{widest.value() * std::exp2(i / per_stop / 2.0)});
  }
  if (narrowest > widest) out.push_back(narrowest);
  return out;
}

/// What must be sharp, and the focus plane.
struct Depth {
  std::vector<FaceDepth> faces;
  Length focus;
  std::optional<physics::Tooth> tooth; // that tooth taken as this one
  facts::Record read;
};

/// Do both take the same aperture? The same tooth of the other side does, but for rounding.
bool takes_as_much(std::optional<FNumber> a, std::optional<FNumber> b) {
  constexpr double rounding = 1e-9;
  if (!a || !b) return !a && !b;
  return std::abs(a->value() - b->value()) <= rounding * b->value();
}
/// A place to focus on, and what it takes there.
struct Focused {
  Said on;
  FNumber needed;
};
/// That of the teeth that must be sharp whose face takes the least, or else of those that show; the
/// best place of all where only that holds within `limit`. Nothing where none does.
std::optional<Focused> best_focused(const Job& job, const Depth& depth, FNumber limit) {
  const Optics optics = optics_of(job);
  const auto best = optics.holding(depth.faces, optics.best_focus(depth.faces));
  if (!best) return std::nullopt;
  const auto needed_on = [&](physics::Tooth tooth) {
    const auto at = placing::depth_of(at_rest(job), {tooth, tooth}, surface_of(main_face(job.view)),
                                      *job.axes());
    return at ? optics.holding(depth.faces, *at) : std::nullopt;
  };
  std::vector<physics::Tooth> teeth;
  std::optional<physics::Tooth> on;
  std::optional<FNumber> least;
  const auto try_on = [&](physics::Tooth tooth) {
    teeth.push_back(tooth);
    const auto needed = needed_on(tooth);
    if (!needed || (least && *needed >= *least)) return;
    on = tooth;
    least = needed;
  };
  for (const FaceDepth& d : depth.faces)
    try_on(d.tooth);
  if ((!least || *least > limit) && job.view.must_show.known()) {
    for (const physics::Wanted& w : surfaces_of(job, job.view.must_show.get()).placed)
      try_on(w.tooth);
  }
  if (!on || (*least > limit && *best <= limit))
    return Focused{phrase::on_middle_of_depth(), *best};
  // The same tooth of the other side may take as much: either will do.
  const physics::Tooth other = on->other_side();
  const bool twin = std::find(teeth.begin(), teeth.end(), other) != teeth.end() &&
                    takes_as_much(needed_on(other), least);
  const physics::Tooth right = on->is_right() ? *on : other;
  return Focused{twin ? phrase::on_either(right, right.other_side()) : phrase::on(*on), *least};
}

/// Where the protocol names a focus, another one with which the range does, or else the lens.
void set_better_focus(Job& job, const Depth& depth) {
  if (!job.view.focus.known()) return; // the best one is taken
  const FNumber range = *job.facts.get(fact::narrowest_allowed);
  const auto needed = job.facts.get(fact::aperture_needed);
  auto better = best_focused(job, depth, range);
  const auto lens = job.facts.get(fact::lens_narrowest);
  if (better && better->needed > range && lens) better = best_focused(job, depth, *lens);
  if (!better) return;
  // A mark of the lens less is worth another focus.
  const double mark = std::exp2(0.5 / marks_per_stop(job.kit()));
  const bool lens_ends = needed && lens && *needed > *lens && better->needed <= *lens;
  if (better->needed > range && needed && !lens_ends &&
      needed->value() < better->needed.value() * mark)
    return;
  job.facts.put(fact::better_focus, better->on);
  job.facts.put(fact::aperture_at_better_focus, better->needed);
  const Recording asked(job.facts);
  job.facts.put(fact::aperture_at_better_focus_asked,
                FNumber{better->needed.value() / f_number_carried(job)});
}

/// What would mend it: another focus, another ratio, fewer teeth.
void set_remedies(Job& job, const Depth& depth) {
  const Recording one(job.facts);
  job.facts.use(depth.read);
  const std::vector<FaceDepth>& depths = depth.faces;
  const FNumber n = *job.facts.get(fact::narrowest_allowed);
  const Optics optics = optics_of(job);
  set_better_focus(job, depth);
  const DepthNeeded need = depth_needed(depths, depth.focus);
  // Behind a close-up lens another lens stands for both at each ratio: none is told.
  const kit::Kit* kit = job.kit();
  const bool close_up = kit != nullptr && kit->lens && kit->lens->close_up.known();
  const auto ratio = job.view.focus.known()
                         ? physics::ratio_holding(need.near, need.far, n, optics.blur, optics.pupil,
                                                  optics.focal_length)
                         : physics::ratio_holding(need.near + need.far, n, optics.blur,
                                                  optics.pupil, optics.focal_length);
  if (ratio && !close_up) {
    job.facts.put(fact::ratio_for_depth, physics::rounded_smaller(*ratio));
    const Recording asked(job.facts);
    job.facts.put(fact::ratio_for_depth_asked, as_asked(job, *ratio));
  }
  std::vector<physics::Tooth> held;
  for (const FaceDepth& d : depths) {
    const auto needed = optics.holding({&d, 1}, depth.focus);
    if (needed && *needed <= n) held.push_back(d.tooth);
  }
  if (!held.empty()) job.facts.put(fact::teeth_held, held);
}

void set_depths(Job& job, FNumber n) {
  const Optics o = optics_of(job);
  const auto depth = physics::depth_of_field(n, o.blur, o.ratio, o.pupil, o.focal_length);
  job.facts.put(fact::near_depth, depth.near);
  if (depth.far) job.facts.put(fact::far_depth, *depth.far);
}

/// What follows from the aperture that is set.
void set_consequences(Job& job) {
  {
    const Recording one(job.facts);
    set_depths(job, *job.facts.get(fact::aperture));
  }
  job.facts.work_out(fact::effective_f_number, physics::effective_f_number, fact::aperture,
                     fact::ratio, fact::pupil_ratio);
  const Recording one(job.facts);
  job.facts.has(fact::aperture);
  job.facts.take(physics::defaults::airy);
  job.facts.work_out(
      fact::diffraction_blur, [](FNumber n) { return physics::diffraction_blur(n); },
      fact::effective_f_number);
  {
    const Recording depth(job.facts);
    if (const auto both = physics::depth_with_diffraction(*job.facts.get(fact::effective_f_number),
                                                          *job.facts.get(fact::allowed_blur),
                                                          *job.facts.get(fact::ratio)))
      job.facts.put(fact::depth_with_diffraction, *both);
  }
  job.facts.work_out(
      fact::sharpest_aperture,
      [](Length blur, Magnification m, PupilRatio p) {
        return FNumber{physics::sharpest_effective_f_number(blur).value() /
                       physics::bellows_factor(m, p)};
      },
      fact::allowed_blur, fact::ratio, fact::pupil_ratio);
}

/// The aperture to which the flash makes one stop down; nothing where it does not.
std::optional<FNumber> set_aperture_for_flash(Job& job) {
  if (job.too_bright == nullptr) return std::nullopt;
  const Recording one(job.facts);
  // They say of themselves what the view's own come out as: what they rest on counts.
  const auto excess = job.facts.get_before(*job.too_bright, fact::excess);
  const auto aperture = job.facts.get_before(*job.too_bright, fact::aperture);
  const FNumber n{aperture->value() * std::exp2(excess->in(stop) / 2.0)};
  job.facts.put(fact::aperture_for_flash, n);
  return n;
}

/// The first mark of the range that is no wider than what the depth needs and than what the flash
/// can be turned down to. False where there is none.
bool set_first_aperture(Job& job) {
  {
    const Recording one(job.facts);
    const FNumber widest = *job.facts.get(fact::widest_allowed);
    const FNumber narrowest = *job.facts.get(fact::narrowest_allowed);
    auto needed = job.facts.get(fact::aperture_needed);
    if (set_aperture_for_flash(job)) {
      const FNumber within = std::min(*job.facts.get(fact::aperture_for_flash), narrowest);
      needed = needed ? std::max(*needed, within) : within;
    }
    constexpr double slack = 1.0 + 1e-9;
    const std::vector<FNumber> marks = marks_between(job, widest, narrowest);
    const auto mark = std::find_if(marks.begin(), marks.end(), [&](FNumber n) {
      return !needed || n.value() * slack >= needed->value();
    });
    if (mark == marks.end()) return false;
    job.facts.put(fact::aperture, *mark);
  }
  set_consequences(job);
  return true;
}

/// Where no depth is known that it must hold: the first mark of the range that was asked for. What
/// the lens has is no choice.
void set_aperture_without_depth(Job& job) {
  const Recording one(job.facts);
  if (job.view.aperture.known() ||
      job.facts.get(fact::widest_allowed) == job.facts.get(fact::narrowest_allowed)) {
    set_first_aperture(job);
  } else {
    job.facts.put_unknown(fact::aperture, missing::aperture_or_sharp());
  }
}

/// Without a focal length the depth is worked out as for an endless one: a real lens is sharp a
/// little less far in front of the focus and farther behind it. Could one hold the teeth?
bool may_hold_with_a_lens(const Job& job, const Depth& depth) {
  Optics optics = optics_of(job);
  optics.focal_length = job.facts.take(physics::defaults::shortest_lens) * mm;
  const auto number = optics.holding(
      depth.faces, job.view.focus.known() ? depth.focus : optics.best_focus(depth.faces));
  return number && *number <= *job.facts.get(fact::narrowest_allowed);
}

/// Does the one take a narrower aperture than the other? None at all is the narrowest.
bool takes_more(std::optional<FNumber> a, std::optional<FNumber> b) { return b && (!a || *a > *b); }

/// For which of the teeth that it may be an aperture of the range holds.
struct HeldFor {
  diag::Teeth held;
  diag::Teeth others;
};
void tell_teeth_held(Job& job, const HeldFor& teeth, const diag::Teeth& deepest) {
  if (!teeth.held.empty()) job.facts.put(fact::sharp_for, teeth.held);
  if (!teeth.others.empty()) job.facts.put(fact::not_sharp_for, teeth.others);
  job.facts.put(fact::deepest_of, deepest);
}

/// How far the one reaches from the other: for the tooth that takes the most, of those that it may
/// be; nothing (said in the facts) where that is not known.
std::optional<Depth> set_depth_needed(Job& job) {
  const Recording one(job.facts);
  Said missing = missing::camera_looks_from();
  std::optional<Depth> most;
  std::optional<FNumber> most_needed;
  diag::Teeth deepest; // that take the most, one as much as the other
  HeldFor held;
  for (const auto& tooth : taken_as(job)) {
    std::optional<std::vector<FaceDepth>> depths;
    if (const auto& axes = job.axes()) depths = depths_of(job, *axes, tooth, missing);
    std::optional<Length> focus;
    if (depths) focus = set_focus(job, *depths, tooth);
    job.facts.find(fact::focus);
    if (!focus) {
      job.facts.put_unknown(fact::near_needed, depths ? missing::focused_tooth() : missing);
      return std::nullopt;
    }
    const DepthNeeded need = depth_needed(*depths, *focus);
    std::optional<FNumber> needed;
    if (tooth) {
      needed = optics_of(job).holding(need);
      const bool holds = needed && *needed <= *job.facts.get(fact::narrowest_allowed);
      (holds ? held.held : held.others).push_back(*tooth);
    }
    if (most && takes_as_much(needed, most_needed)) {
      if (tooth) deepest.push_back(*tooth);
      continue;
    }
    if (most && !takes_more(needed, most_needed)) continue;
    most = Depth{std::move(*depths), *focus, tooth, {}};
    most_needed = needed;
    deepest.clear();
    if (tooth) deepest.push_back(*tooth);
  }
  const DepthNeeded need = depth_needed(most->faces, most->focus);
  job.facts.put(fact::near_needed, need.near);
  job.facts.put(fact::far_needed, need.far);
  set_focus_off(job, most->faces, most->focus);
  if (!deepest.empty()) tell_teeth_held(job, held, deepest);
  most->read = job.facts.kept();
  return most;
}

/// The f-number that holds it; nothing where none does.
std::optional<FNumber> set_aperture_needed(Job& job) {
  const Recording one(job.facts);
  const DepthNeeded need{*job.facts.get(fact::near_needed), *job.facts.get(fact::far_needed)};
  const auto needed = optics_of(job).holding(need);
  if (needed) job.facts.put(fact::aperture_needed, *needed);
  if (needed) {
    const Recording asked(job.facts);
    job.facts.put(fact::aperture_needed_asked, FNumber{needed->value() / f_number_carried(job)});
  }
  return needed;
}

/// Where no aperture of the range holds what must be sharp, the narrowest is set. False where a
/// lens might that is not known.
bool set_narrowest(Job& job, const Depth& depth) {
  {
    const Recording one(job.facts);
    job.facts.get(fact::near_needed);
    job.facts.get(fact::far_needed);
    if (!job.facts.get(fact::focal_length) && may_hold_with_a_lens(job, depth)) {
      job.facts.put_unknown(fact::aperture, missing::focal_length());
      return false;
    }
    const FNumber narrowest = *job.facts.get(fact::narrowest_allowed);
    const Optics optics = optics_of(job);
    const auto best = optics.holding(depth.faces, optics.best_focus(depth.faces));
    const bool by_focus = best && *best <= narrowest;
    job.facts.put(fact::not_held,
                  by_focus ? phrase::focused_no_aperture_holds(*job.facts.get(fact::focus))
                           : phrase::no_aperture_holds());
    job.facts.put(fact::aperture, narrowest);
  }
  set_consequences(job);
  return true;
}

/// In how many mouths does the range hold what must be sharp?
void set_sharp_in_mouths(Job& job, const Depth& depth) {
  if (job.many_mouths().empty()) return; // there is no arch of such sizes
  const Recording one(job.facts);
  job.facts.use(depth.read);
  const model::View& view = job.view;
  const auto surfaces =
      surfaces_of(job, with_that_tooth(job, view.must_be_sharp, view.things_sharp, depth.tooth));
  const auto focused = view.focus.known()
                           ? pair_of(job, with_that_tooth(view.focus.get(), depth.tooth))
                           : std::nullopt;
  const FNumber narrowest = *job.facts.get(fact::narrowest_allowed);
  const Optics optics = optics_of(job);
  physics::MouthState mouth = at_rest(job);
  const InMouths in = in_mouths(job.many_mouths(), Counts::sizes, [&](const mouths::Drawn& drawn) {
    mouth.anatomy = drawn.anatomy;
    const auto faces =
        placing::depths_of(mouth, surfaces.placed, *job.axes(), band_of(view.sharp_third));
    const auto focus =
        focused ? placing::depth_of(mouth, *focused, surface_of(main_face(view)), *job.axes())
                : optics.best_focus(faces);
    const auto needed = focus ? optics.holding(faces, *focus) : std::nullopt;
    return needed && *needed <= narrowest;
  });
  job.facts.note(Status::assumed); // some spreads and how they hang together are
  job.facts.put(fact::sharp_in_mouths, in.of_hundred);
  if (in.by) job.facts.put(fact::sharp_hangs_on, facts::term_of(*in.by));
}

/// Does what it takes come near enough to the end of the range that other mouths may take more?
bool near_the_end(const Job& job) {
  const auto needed = job.facts.get(fact::aperture_needed);
  const auto narrowest = job.facts.get(fact::narrowest_allowed);
  constexpr double share = 0.6; // teeth and arches one and a half times as deep: nobody's
  return needed && narrowest && needed->value() > share * narrowest->value();
}

} // namespace

void plan_sharpness(Job& job) {
  const auto& shown = job.view.must_show;
  const auto& sharp = job.view.must_be_sharp;
  if (sharp.absent() && job.view.things_sharp.absent() && shown.known() && !shown->empty())
    job.open(question::shown_sharp, missing::what_must_be_sharp());
  open_items(job, question::item_sharp, sharp, job.view.things_sharp);
  set_blur(job);
  set_range(job);
  {
    const Recording one(job.facts);
    if (!job.facts.needs(fact::aperture, {&fact::widest_allowed, &fact::narrowest_allowed,
                                          &fact::ratio, &fact::allowed_blur})) {
      if (sharp.known()) job.facts.needs(fact::near_needed, {&fact::aperture});
      return;
    }
  }
  {
    const Recording one(job.facts);
    if (*job.facts.get(fact::widest_allowed) > *job.facts.get(fact::narrowest_allowed))
      return job.facts.put_impossible(fact::aperture, phrase::lens_has_no_aperture());
  }
  if (sharp.broken()) return job.facts.put_broken(fact::near_needed);
  const bool any =
      !with_that_tooth(job, sharp, job.view.things_sharp, taken_as(job).front()).empty();
  if (!any) return set_aperture_without_depth(job);
  const auto depth = set_depth_needed(job);
  if (!depth) return set_aperture_without_depth(job);
  const auto needed = set_aperture_needed(job);
  if (needed && set_first_aperture(job)) {
    if (near_the_end(job)) set_sharp_in_mouths(job, *depth);
    return;
  }
  if (!set_narrowest(job, *depth)) return;
  set_sharp_in_mouths(job, *depth);
  set_remedies(job, *depth);
}

} // namespace norma::plan
