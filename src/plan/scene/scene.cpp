// What each view shows of the teeth it must show, worked out in three dimensions.
#include "plan/scene/scene.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace norma::plan {
namespace {

using placing::Hider;
using placing::stands_behind;

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

/// The mean of the group, with the sizes that a clinic has put in place of the published ones.
void set_patient(Job& job) {
  List own;
  if (job.kit != nullptr) {
    for (const kit::OwnValue& v : job.kit->anatomy) {
      if (!v.value.known() || !physics::counts_for(*v.which, job.anatomy->dentition)) continue;
      // The number as the kit writes it, whatever its step.
      const std::string number = fmt::format("{}", v.value.get());
      own.items.emplace_back(v.which->unit.empty()
                                 ? phrase::own_count(v.which->name, number)
                                 : phrase::own_size(v.which->name, number, v.which->unit));
    }
    for (const kit::ToothSizes& t : job.kit->teeth) {
      if (!t.tooth.known() || !physics::stands_in(t.tooth.get(), job.anatomy->dentition)) continue;
      for (const auto& [row, size] :
           {std::pair{&phrase::own_width, &t.width}, std::pair{&phrase::own_height, &t.height},
            std::pair{&phrase::own_depth, &t.depth}}) {
        if (size->known())
          own.items.emplace_back((*row)(t.tooth.get(), t.tooth->other_side(), size->get()));
      }
    }
  }
  const Said group = term_of(job.anatomy->dentition);
  if (own.items.empty())
    job.facts.set(fact::patient, phrase::mean_patient(group), Status::assumed);
  else
    job.facts.set(fact::patient, phrase::mean_patient_by_kit(group, std::move(own)),
                  Status::measured);
}

} // namespace

TurnedLimit turned_limit(const Job& job) {
  if (job.view.turned_away.known()) return {job.view.turned_away.get(), Status::asked};
  const bool straight = abs(*job.facts.get(fact::azimuth)) < placing::aside;
  const LimitValue limit = job.limit(straight ? physics::defaults::turned_straight
                                              : physics::defaults::turned_elsewhere);
  return {limit.value * degree, limit.status};
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
  set_patient(job);
  job.out.scene = Scene{setting.mouth, placing::eye_of(setting, placed.pose), {}};
  // A lamp around the lens lights all that it sees.
  const bool shades = placed.lamp && setting.lamp->kind != placing::CameraLamp::Kind::built_in;
  job.out.shown = placing::look_at(setting, placed.pose, shades ? &*placed.lamp : nullptr);
  const std::vector<Shown>& shown = job.out.shown;
  lay_out(job, placed);
  const Angle limit = setting.limits.turned;
  job.facts.set(fact::turned_limit, limit, turned_limit(job).status);
  const auto turned = [&](const Shown& s) { return s.obliquity > limit; };
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::elevation, &fact::pupil_distance};
  const auto behind = teeth_of(shown, stands_behind);
  const auto seen = teeth_of(shown, [&](const Shown& s) {
    return !stands_behind(s) && !placing::cut_off(s) && !turned(s);
  });
  if (!seen.empty()) job.facts.derive(fact::teeth_seen, seen, from, Status::assumed);
  try_corner(job, placed, behind);
  const auto beyond = teeth_of(shown, placing::cut_off);
  if (!beyond.empty()) {
    job.facts.derive(fact::teeth_beside_mirror, beyond, from, Status::assumed);
    job.facts.set(fact::mirror_width, placed.pose.mirror->width, Status::measured, {&fact::mirror});
    try_mirrors(job, placed);
  }
  if (!behind.empty()) {
    job.facts.derive(fact::teeth_hidden, behind, from, Status::assumed);
    job.facts.derive(fact::hidden_by, hiders_of(shown), from, Status::assumed);
    try_remedies(job, placed);
    try_side_mirror(job, placed);
  }
  if (behind.empty() && beyond.empty()) {
    try_smaller_mirror(job, placed);
    try_without_mirror(job, placed);
  }
  if (setting.mirror && setting.mirror->use == placing::MirrorUse::over_arch)
    fit_mirror(job, placed);
  light_scene(job, placed);
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
