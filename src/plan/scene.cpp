// What each view shows of the teeth it must show, worked out in three dimensions.
#include "plan/scene.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "words/teeth.hpp"

namespace norma::plan {
namespace {

bool not_in_mirror(const Shown& s) {
  return s.hider == Hider::beside_mirror || s.hider == Hider::turned_from_mirror;
}
bool not_enough(const Shown& s) { return !s.enough_seen; }

std::string hiders_text(const std::vector<Shown>& shown) {
  std::string out;
  const auto add = [&](const std::string& what) {
    if (out.find(what) == std::string::npos) out += (out.empty() ? "" : ", ") + what;
  };
  for (const Shown& s : shown) {
    if (!stands_behind(s)) continue;
    switch (s.hider) {
    case Hider::nothing:
    case Hider::beside_mirror:
    case Hider::turned_from_mirror: break;
    case Hider::crown: add("tooth " + std::to_string(s.hider_tooth->iso())); break;
    case Hider::gum: add("the gum of " + std::to_string(s.hider_tooth->iso())); break;
    case Hider::lip: add("a lip"); break;
    case Hider::cheek: add("the cheek"); break;
    }
  }
  return out;
}

/// `mean adult`, with the sizes that a clinic has put in place of the published ones.
void set_patient(Job& job) {
  std::string text = "mean " + std::string(patient_text(job.anatomy->dentition));
  bool own = false;
  if (job.kit != nullptr) {
    for (const kit::OwnValue& v : job.kit->anatomy) {
      if (!v.value.known() || !physics::counts_for(*v.which, job.anatomy->dentition)) continue;
      text += fmt::format("{}{} {}{}{}", own ? ", " : "; by the kit: ", v.which->name,
                          v.value.get(), v.which->unit.empty() ? "" : " ", v.which->unit);
      own = true;
    }
    for (const kit::ToothSizes& t : job.kit->teeth) {
      if (!t.tooth.known() || !physics::stands_in(t.tooth.get(), job.anatomy->dentition)) continue;
      for (const auto& [name, size] : {std::pair{"wide", &t.width}, std::pair{"high", &t.height},
                                       std::pair{"deep", &t.depth}}) {
        if (!size->known()) continue;
        text += fmt::format("{}{} and {} {} {}", own ? ", " : "; by the kit: ", t.tooth->iso(),
                            t.tooth->other_side().iso(), physics::to_text(size->get()), name);
        own = true;
      }
    }
  }
  job.facts.set(fact::patient, text, own ? Status::measured : Status::assumed);
}

void set_limit(Job& job) {
  if (job.view.turned_away.known()) {
    job.facts.set(fact::turned_limit, job.view.turned_away.get(), Status::asked);
    return;
  }
  const bool straight = abs(*job.facts.get(fact::azimuth)) < aside;
  const LimitValue limit = job.limit(straight ? physics::defaults::turned_straight
                                              : physics::defaults::turned_elsewhere);
  job.facts.set(fact::turned_limit, limit.value * degree, limit.status);
}

} // namespace

bool cut_off(const Shown& s) { return !s.in_mirror || (not_in_mirror(s) && not_enough(s)); }
bool stands_behind(const Shown& s) {
  return s.hider != Hider::nothing && !not_in_mirror(s) && not_enough(s);
}

void plan_scene(Job& job, const std::string& why_not) {
  const model::View& view = job.view;
  if (view.kind == model::ViewKind::face || !view.must_show.known() || view.must_show->empty())
    return;
  if (view.right_retractor.broken() || view.left_retractor.broken()) return;
  if (!job.no_teeth.empty()) {
    job.open(question::scene_hidden, job.no_teeth);
    return;
  }
  std::string missing;
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
  set_patient(job);
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
  if (!seen.empty())
    job.facts.derive(fact::teeth_seen, seen, from, Status::assumed);
  try_corner(job, setting, behind);
  const auto beyond = teeth_of(shown, cut_off);
  if (!beyond.empty()) {
    job.facts.derive(fact::teeth_beside_mirror, beyond, from, Status::assumed);
    job.facts.set(fact::mirror_width, setting.mirror->width, Status::measured, {&fact::mirror});
    try_mirrors(job, setting);
  }
  if (!behind.empty()) {
    job.facts.derive(fact::teeth_hidden, behind, from, Status::assumed);
    job.facts.derive(fact::hidden_by, hiders_text(shown), from, Status::assumed);
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
