// What each view shows, worked out in three dimensions.
#include <algorithm>
#include <cmath>

#include "physics/optics.hpp"
#include "physics/scene/look.hpp"
#include "plan/job.hpp"
#include "words/teeth.hpp"

namespace norma::plan {
namespace {

using physics::Hider;
using physics::Shown;

constexpr const char* question = "whether teeth, gum, lips or cheeks hide what must show";
/// A view that looks from less far aside is taken straight ahead.
constexpr Angle aside = 20.0 * degree;
constexpr Angle angle_step = 5.0 * degree;
constexpr Angle widest_azimuth = 90.0 * degree;
/// By how much the corner of the mouth is moved to see what hangs on it.
constexpr Length corner_moved = 5.0 * mm;

/// Everything a look at one view takes.
struct Setting {
  physics::MouthState mouth;
  Angle azimuth;
  Angle elevation;
  Angle roll;
  physics::Point aim;
  Magnification ratio;
  Length pupil_distance;
  Size sensor; // as it is held
  std::vector<physics::Wanted> wanted;
};

std::vector<Shown> look_at(const Setting& s) {
  const auto mouth = physics::make_mouth(s.mouth);
  if (!mouth) return {};
  const physics::Axes axes = physics::camera_axes(s.azimuth, s.elevation, s.roll);
  physics::Eye eye;
  eye.pupil = s.aim - axes.forward * s.pupil_distance;
  eye.lens = {eye.pupil, axes, s.ratio, s.pupil_distance};
  eye.sensor = s.sensor;
  return physics::look(*mouth, eye, nullptr, s.wanted);
}

/// Hidden by something that stands in front; a surface turned from the lens is another matter.
bool stands_behind(const Shown& s) {
  return s.hider != Hider::nothing && s.seen < physics::defaults::shown_share.value * s.facing;
}

std::vector<physics::Tooth> teeth_of(const std::vector<Shown>& shown, auto which) {
  std::vector<physics::Tooth> out;
  for (const Shown& s : shown) {
    if (which(s)) out.push_back(s.tooth);
  }
  return out;
}

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

/// Corner of one side; nothing (and what is missing) where it is not known.
bool set_corner(const text::Sourced<model::Retractor>& said,
                std::optional<physics::MouthCorner>& corner) {
  if (!said.known()) return false;
  if (!said->mirror_takes_place && !said->none) corner = corner_of(said.get());
  return true;
}

std::string missing_for(const Job& job) {
  if (!job.axes) return "where the camera looks from";
  if (!job.aim) return "what the camera is aimed at";
  if (!job.facts.get(fact::pupil_distance)) return "focal length and ratio";
  if (!job.facts.get(fact::field_width)) return "ratio and sensor";
  return {};
}

void set_limit(Job& job) {
  if (job.view.turned_away.known()) {
    job.facts.set(fact::turned_limit, job.view.turned_away.get(), Status::asked);
    return;
  }
  const bool straight = abs(*job.facts.get(fact::azimuth)) < aside;
  const physics::Default& limit =
      straight ? physics::defaults::turned_straight : physics::defaults::turned_elsewhere;
  job.facts.set(fact::turned_limit, limit.value * degree, status_of(limit.origin));
}

/// What would show the hidden ones: another angle, or a firmer pull. Tried in the model.
void try_remedies(Job& job, const Setting& setting) {
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::pupil_distance};
  const auto none_hidden = [](const std::vector<Shown>& shown) {
    return std::none_of(shown.begin(), shown.end(), stands_behind);
  };
  const Angle limit = *job.facts.get(fact::turned_limit);
  const double side = setting.azimuth < Angle{} ? -1.0 : 1.0;
  if (abs(setting.azimuth) >= aside) {
    const Angle given = abs(setting.azimuth);
    for (Angle off = angle_step; off <= widest_azimuth; off += angle_step) {
      for (const Angle a : {given + off, given - off}) {
        if (a < aside || a > widest_azimuth || job.facts.get(fact::azimuth_that_shows)) continue;
        Setting other = setting;
        other.azimuth = side * a;
        const std::vector<Shown> shown = look_at(other);
        // What shows one tooth must not turn another one away.
        const bool round = std::any_of(shown.begin(), shown.end(),
                                       [&](const Shown& x) { return x.obliquity > limit; });
        if (!round && none_hidden(shown))
          job.facts.derive(fact::azimuth_that_shows, a, from, Status::assumed);
      }
    }
  }
  Setting firm = setting;
  model::Retractor pull;
  pull.tension = "firm";
  if (firm.mouth.right) firm.mouth.right = corner_of(pull);
  if (firm.mouth.left) firm.mouth.left = corner_of(pull);
  if (none_hidden(look_at(firm)))
    job.facts.set(fact::seen_with_firm_pull, "all are seen", Status::assumed);
}

/// The same with the corners of the mouth farther in: what hangs on the assumption.
void try_corner(Job& job, Setting setting, const std::vector<physics::Tooth>& before) {
  for (auto* corner : {&setting.mouth.right, &setting.mouth.left}) {
    if (*corner)
      *corner =
          physics::MouthCorner{(*corner)->side - corner_moved, (*corner)->back - corner_moved};
  }
  const auto after = teeth_of(look_at(setting), stands_behind);
  job.facts.derive(fact::hidden_farther_in,
                   after.empty()     ? "none"
                   : after == before ? "the same"
                                     : words::teeth_text(after),
                   {&fact::azimuth, &fact::pupil_distance}, Status::assumed);
}

} // namespace

void plan_scene(Job& job, int& scenes_left) {
  const model::View& view = job.view;
  if (view.kind == model::ViewKind::face || !view.must_show.known() || view.must_show->empty())
    return;
  if (view.taken_in_mirror) {
    job.open(question, "where the mirror stands in the mouth");
    return;
  }
  if (view.right_retractor.broken() || view.left_retractor.broken()) return;
  if (!job.no_teeth.empty()) return; // said by the framing
  std::string missing = missing_for(job);
  Setting setting;
  if (missing.empty() && (!set_corner(view.right_retractor, setting.mouth.right) ||
                          !set_corner(view.left_retractor, setting.mouth.left))) {
    missing = "retractors of both sides (word `retractor`)";
  }
  if (missing.empty() && view.mouth.known()) missing = "how far the mouth is open";
  if (missing.empty() && scenes_left == 0) {
    missing = "a shorter protocol: norma looks at " + std::to_string(most_scenes) +
              " views of one protocol in three dimensions";
  }
  if (missing.empty() && physics::mean_arch(job.dentition, true) == nullptr)
    missing = "arch of the mean " + std::string(patient_text(job.dentition));
  if (!missing.empty()) {
    job.open(question, missing);
    return;
  }
  --scenes_left;
  setting.mouth.dentition = job.dentition;
  setting.azimuth = *job.facts.get(fact::azimuth);
  setting.elevation = *job.facts.get(fact::elevation);
  setting.roll = *job.facts.get(fact::roll);
  setting.aim = *job.aim;
  setting.ratio = *job.facts.get(fact::ratio);
  setting.pupil_distance = *job.facts.get(fact::pupil_distance);
  const double m = setting.ratio.value();
  setting.sensor = {*job.facts.get(fact::field_width) * m, *job.facts.get(fact::field_height) * m};
  for (const model::NamedFace& f : standing(job, view.must_show.get()))
    setting.wanted.push_back({f.tooth, surface_of(f.face)});

  job.out.shown = look_at(setting);
  const std::vector<Shown>& shown = job.out.shown;
  set_limit(job);
  const Angle limit = *job.facts.get(fact::turned_limit);
  const auto turned = [&](const Shown& s) { return s.obliquity > limit; };
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::elevation, &fact::pupil_distance};
  const auto behind = teeth_of(shown, stands_behind);
  const auto seen =
      teeth_of(shown, [&](const Shown& s) { return !stands_behind(s) && !turned(s); });
  if (!seen.empty())
    job.facts.derive(fact::teeth_seen, words::teeth_text(seen), from, Status::assumed);
  try_corner(job, setting, behind);
  if (!behind.empty()) {
    job.facts.derive(fact::teeth_hidden, words::teeth_text(behind), from, Status::assumed);
    job.facts.derive(fact::hidden_by, hiders_text(shown), from, Status::assumed);
    try_remedies(job, setting);
  }
  const auto away = teeth_of(shown, turned);
  if (!away.empty()) {
    const auto most =
        std::max_element(shown.begin(), shown.end(),
                         [](const Shown& a, const Shown& b) { return a.obliquity < b.obliquity; });
    job.facts.derive(fact::teeth_turned, words::teeth_text(away), from, Status::assumed);
    job.facts.derive(fact::most_turned, most->obliquity, from, Status::assumed);
  }
}

} // namespace norma::plan
