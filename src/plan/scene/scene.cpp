// What each view shows of the teeth it must show, worked out in three dimensions.
#include "plan/scene/scene.hpp"

#include <algorithm>

namespace norma::plan {
namespace {

bool not_in_mirror(const Shown& s) {
  return s.hider == Hider::beside_mirror || s.hider == Hider::turned_from_mirror;
}
bool not_enough(const Shown& s) { return !s.enough_seen; }

List hiders_of(const std::vector<Shown>& shown) {
  List out;
  for (const Shown& s : shown) {
    if (!stands_behind(s)) continue;
    switch (s.hider) {
    case Hider::nothing:
    case Hider::beside_mirror:
    case Hider::turned_from_mirror: break;
    case Hider::crown: add_once(out, phrase::tooth(*s.hider_tooth)); break;
    case Hider::gum: add_once(out, phrase::the_gum_of(*s.hider_tooth)); break;
    case Hider::lip: add_once(out, phrase::a_lip()); break;
    case Hider::cheek: add_once(out, phrase::the_cheek()); break;
    }
  }
  return out;
}

void set_limit(Job& job) {
  if (job.view.turned_away.known()) {
    job.facts.set(fact::turned_limit, job.view.turned_away.get(), Status::asked);
    return;
  }
  const Recording one(job.facts);
  const bool straight = abs(*job.facts.get(fact::azimuth)) < aside;
  const double limit = job.facts.take(job.limit(straight ? physics::defaults::turned_straight
                                                         : physics::defaults::turned_elsewhere));
  job.facts.put(fact::turned_limit, limit * degree);
}

} // namespace

bool cut_off(const Shown& s) { return !s.in_mirror || (not_in_mirror(s) && not_enough(s)); }
bool stands_behind(const Shown& s) {
  return s.hider != Hider::nothing && !not_in_mirror(s) && not_enough(s);
}

void plan_scene(Job& job, const Said& why_not) {
  const model::View& view = job.view;
  if (view.kind == model::ViewKind::face || !view.must_show.known() || view.must_show->empty())
    return;
  if (view.right_retractor.broken() || view.left_retractor.broken()) return;
  if (!job.no_teeth.empty()) {
    job.open(question::scene_hidden, job.no_teeth);
    return;
  }
  Said missing;
  std::optional<Setting> found;
  if (why_not.empty()) {
    found = setting_of(job, missing);
  } else {
    missing = why_not;
  }
  if (!missing.empty()) {
    job.open(question::scene_hidden, missing);
    return;
  }
  const Setting& setting = *found;
  job.out.scene = Scene{setting.mouth, eye_of(setting), {}};
  job.out.shown = look_at(setting);
  const std::vector<Shown>& shown = job.out.shown;
  lay_out(job, setting);
  set_limit(job);
  const Angle limit = *job.facts.get(fact::turned_limit);
  const auto turned = [&](const Shown& s) { return s.obliquity > limit; };
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::elevation, &fact::pupil_distance};
  const auto behind = teeth_of(shown, stands_behind);
  const auto seen = teeth_of(
      shown, [&](const Shown& s) { return !stands_behind(s) && !cut_off(s) && !turned(s); });
  if (!seen.empty()) job.facts.derive(fact::teeth_seen, seen, from, Status::assumed);
  try_corner(job, setting, behind);
  const auto beyond = teeth_of(shown, cut_off);
  if (!beyond.empty()) {
    job.facts.derive(fact::teeth_beside_mirror, beyond, from, Status::assumed);
    job.facts.set(fact::mirror_width, setting.mirror->width, Status::measured, {&fact::mirror});
    try_mirrors(job, setting);
  }
  if (!behind.empty()) {
    job.facts.derive(fact::teeth_hidden, behind, from, Status::assumed);
    job.facts.derive(fact::hidden_by, hiders_of(shown), from, Status::assumed);
    try_remedies(job, setting);
    try_side_mirror(job, setting);
  }
  if (behind.empty() && beyond.empty()) {
    try_smaller_mirror(job, setting);
    try_without_mirror(job, setting);
  }
  if (setting.mirror && job.view.mirror->use == model::MirrorUse::occlusal)
    fit_mirror(job, setting);
  light_scene(job, setting);
  const auto away = teeth_of(shown, turned);
  if (!away.empty()) {
    const auto most =
        std::max_element(shown.begin(), shown.end(),
                         [](const Shown& a, const Shown& b) { return a.obliquity < b.obliquity; });
    job.facts.derive(fact::teeth_turned, away, from, Status::assumed);
    job.facts.derive(fact::most_turned, most->obliquity, from, Status::assumed);
  }
}

} // namespace norma::plan
