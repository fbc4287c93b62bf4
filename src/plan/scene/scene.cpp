// What each view shows of the teeth it must show, worked out in three dimensions.
#include "plan/scene/scene.hpp"

#include <algorithm>

#include "placing/lamp.hpp"
#include "placing/remedies.hpp"

namespace norma::plan {

using placing::Hider;
using placing::stands_behind;

List hiders_of(const std::vector<Shown>& shown) {
  List out;
  for (const Shown& s : shown) {
    if (!stands_behind(s)) continue;
    switch (s.hider) {
    case Hider::nothing:
    case Hider::beside_mirror:
    case Hider::turned_from_mirror:
    case Hider::turned_from_lamp: break;
    case Hider::crown: add_once(out, phrase::tooth(*s.hider_tooth)); break;
    case Hider::gum: add_once(out, phrase::the_gum_of(*s.hider_tooth)); break;
    case Hider::lip: add_once(out, phrase::a_lip()); break;
    case Hider::cheek: add_once(out, phrase::the_cheek()); break;
    }
  }
  return out;
}

Given turned_limit(const Job& job) {
  const bool straight = abs(*job.facts.get(fact::azimuth)) < placing::aside;
  return job.limit(straight ? physics::defaults::turned_straight
                            : physics::defaults::turned_elsewhere);
}

void read_least_seen(const Job& job) {
  job.limit(fact::least_seen, physics::defaults::shown_share);
  if (job.view.taken_in_mirror) job.limit(fact::least_in_mirror, physics::defaults::mirror_share);
}

/// The greatest obliquity at which a surface does not count as turned away.
void set_turned_limit(Job& job) {
  if (job.view.turned_away.known()) {
    job.facts.give_asked(fact::turned_limit, job.view.turned_away.get());
  } else {
    job.facts.give(fact::turned_limit, turned_limit(job));
  }
}

namespace {

/// What is seen, what is hidden, and what would mend that.
void tell_seen(Job& job, const Placed& placed, const std::vector<Shown>& farther_in) {
  const Recording one(job.facts);
  job.facts.use(placed.read);
  const std::vector<Shown>& shown = job.out.shown;
  const Angle limit = placed.setting.limits.turned;
  const auto behind = teeth_of(shown, stands_behind);
  const auto beyond = teeth_of(shown, placing::cut_off);
  const auto seen = teeth_of(shown, [&](const Shown& s) {
    return !stands_behind(s) && !placing::cut_off(s) && s.obliquity <= limit;
  });
  if (!seen.empty()) {
    const Recording turned(job.facts);
    job.facts.find(fact::turned_limit);
    job.facts.put(fact::teeth_seen, seen);
  }
  try_corner(job, behind, farther_in);
  if (!beyond.empty()) {
    job.facts.put(fact::teeth_beside_mirror, beyond);
    job.facts.put_of_kit(fact::mirror_width, placed.pose.mirror->width);
    try_mirrors(job, placed);
  }
  if (!behind.empty()) {
    job.facts.put(fact::teeth_hidden, behind);
    job.facts.put(fact::hidden_by, hiders_of(shown));
    try_remedies(job, placed);
    try_side_mirror(job, placed);
  }
  if (behind.empty() && beyond.empty()) {
    try_smaller_mirror(job, placed);
    try_without_mirror(job, placed);
  }
}

/// What is turned away from the lens.
void tell_turned(Job& job, const Placed& placed) {
  const Recording one(job.facts);
  job.facts.use(placed.read);
  job.facts.find(fact::turned_limit);
  const std::vector<Shown>& shown = job.out.shown;
  const auto away =
      teeth_of(shown, [&](const Shown& s) { return s.obliquity > placed.setting.limits.turned; });
  if (away.empty()) return;
  const auto most =
      std::max_element(shown.begin(), shown.end(),
                       [](const Shown& a, const Shown& b) { return a.obliquity < b.obliquity; });
  job.facts.put(fact::teeth_turned, away);
  job.facts.put(fact::most_turned, most->obliquity);
}

} // namespace

namespace {

void look_at_scene(Job& job, const Said& why_not) {
  const model::View& view = job.view;
  if (view.kind == model::ViewKind::mouth && view.shows(model::Thing::that_tooth) &&
      !view.must_show.known())
    return job.open(question::scene_hidden, missing::tooth_of_the_chair());
  if (view.kind == model::ViewKind::face || !view.must_show.known() || view.must_show->empty())
    return;
  if (view.right_retractor.broken() || view.left_retractor.broken()) return;
  if (!job.no_teeth.empty()) {
    job.open(question::scene_hidden, job.no_teeth);
    return;
  }
  Said missing;
  std::optional<Placed> found;
  if (why_not.empty()) {
    found = placed_view(job, missing);
  } else {
    missing = why_not;
  }
  if (!missing.empty()) {
    job.open(question::scene_hidden, missing);
    return;
  }
  const Placed& placed = *found;
  const Setting& setting = placed.setting;
  job.out.scene = Scene{setting.mouth, placing::eye_of(setting, placed.pose), {}};
  // A lamp around the lens lights all that it sees.
  const bool shades = placed.lamp && placing::may_shade(setting);
  job.out.shown = placing::look_at(setting, placed.pose, shades ? &*placed.lamp : nullptr,
                                   physics::fine_pieces);
  job.out.read = placed.read;
  job.out.setting = std::make_shared<const Setting>(setting);
  lay_out(job, placed);
  judge_unwanted(job, placed);
  set_turned_limit(job);
  const std::vector<Shown> farther_in =
      placing::look_farther_in(setting, placed.pose, shades ? &*placed.lamp : nullptr);
  tell_seen(job, placed, farther_in);
  if (setting.mirror && setting.mirror->use == placing::MirrorUse::over_arch)
    fit_mirror(job, placed);
  light_scene(job, placed);
  {
    const Recording lit(job.facts);
    job.facts.use(placed.read);
    job.facts.use(placed.lamp_read);
    job.out.lit_read = job.facts.kept();
  }
  tell_turned(job, placed);
  if (job.second_choice) return;
  judge_in_mouths(job, placed, farther_in);
  try_tolerance(job, placed);
}

} // namespace

void plan_scene(Job& job, const Said& why_not) {
  look_at_scene(job, why_not);
  open_unwanted(job, job.out.scene.has_value());
}

} // namespace norma::plan
