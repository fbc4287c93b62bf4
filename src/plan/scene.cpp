// What each view shows, worked out in three dimensions.
#include <algorithm>
#include <cmath>

#include "physics/mirror.hpp"
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
constexpr int ring_points = 16;
constexpr Angle angle_step = 5.0 * degree;
constexpr Angle flattest_mirror = 20.0 * degree;
constexpr Angle steepest_mirror = 70.0 * degree;
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
  std::optional<physics::PlaneMirror> mirror;
};

std::vector<Shown> look_at(const Setting& s, const physics::Lamp* lamp = nullptr) {
  const auto mouth = physics::make_mouth(s.mouth);
  if (!mouth) return {};
  physics::Eye eye;
  // Azimuth and elevation are those of the camera as the teeth see it: of its image in a mirror,
  // whose picture is left-handed.
  physics::Axes axes = physics::camera_axes(s.azimuth, s.elevation, s.roll);
  eye.pupil = s.aim - axes.forward * s.pupil_distance;
  eye.mirror = s.mirror;
  if (s.mirror) {
    axes.right = -axes.right;
    eye.lens.pupil = eye.pupil;
    eye.pupil = physics::reflected(eye.pupil, s.mirror->middle, s.mirror->normal);
    eye.lens = {eye.lens.pupil, axes, s.ratio, s.pupil_distance};
  } else {
    eye.lens = {eye.pupil, axes, s.ratio, s.pupil_distance};
  }
  eye.sensor = s.sensor;
  return physics::look(*mouth, eye, lamp, s.wanted);
}

bool not_in_mirror(const Shown& s) {
  return s.hider == Hider::beside_mirror || s.hider == Hider::turned_from_mirror;
}
bool not_enough(const Shown& s) { return s.seen < physics::defaults::shown_share.value * s.facing; }
/// The mirror ends before it shows the surface.
bool cut_off(const Shown& s) { return not_in_mirror(s) && not_enough(s); }
/// Hidden by something that stands in front; a surface turned from the lens is another matter.
bool stands_behind(const Shown& s) {
  return s.hider != Hider::nothing && !not_in_mirror(s) &&
         s.seen < physics::defaults::shown_share.value * s.facing;
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

/// An arch mirror as it is held: its wide end in the mouth, a little behind the last tooth that
/// must show, opened from the biting plane.
physics::PlaneMirror arch_mirror(bool upper, Length behind, Angle opened, Length width,
                                 Length narrow_end, Length length) {
  physics::PlaneMirror m;
  const physics::Vec normal = physics::arch_mirror_normal(upper, opened);
  m.normal = normal.y > 0 ? -normal : normal; // towards the teeth, which stand in front of it
  m.across = {1, 0, 0};
  m.along = {0, -cos(opened), upper ? -sin(opened) : sin(opened)};
  m.middle = physics::Point{Length{}, behind, Length{}} + m.along * (0.5 * length);
  m.width = width;
  m.narrow_end = narrow_end;
  m.length = length;
  return m;
}

/// How far back the surfaces that must show reach.
Length last_back(const Job& job) {
  std::string missing;
  Length back;
  if (const auto points = points_of(job, job.view.must_show.get(), missing)) {
    for (const physics::SurfacePoint& p : *points)
      back = std::max(back, p.at.y);
  }
  return back;
}

/// Puts the kit's mirror in its place; what is missing, "" where it stands.
std::string set_mirror(const Job& job, Setting& setting) {
  if (!job.view.mirror.known() || job.view.mirror->use != model::MirrorUse::occlusal)
    return "where this kind of mirror stands in the mouth";
  const auto jaw = shown_jaw(job.view);
  const auto angle = job.facts.get(fact::mirror_angle);
  if (!jaw || !angle) return "which jaw the mirror shows";
  const kit::Mirror* mirror = job.out.chosen.mirror;
  if (mirror == nullptr) return "mirror of the kit";
  if (!mirror->width.known() || !mirror->length.known()) return "width and length of the mirror";
  const Length gap = physics::defaults::mirror_gap.value * mm;
  setting.mirror =
      arch_mirror(*jaw == model::Jaw::upper, last_back(job) + gap, *angle, mirror->width.get(),
                  mirror->narrow_end.value_or(mirror->width.get()), mirror->length.get());
  return {};
}

/// How far the jaws are apart; what is missing, "" where that is known.
std::string set_opening(Job& job, Setting& setting) {
  const model::View& view = job.view;
  setting.mouth.of_upper = shown_jaw(view) != model::Jaw::lower;
  if (view.teeth.known() && !view.teeth_together() && !view.least_opening.known())
    return "how far the teeth are apart";
  if (!view.mouth.known() && !view.least_opening.known()) return {};
  if (view.mouth.known() && view.mouth.get() == "closed") return {};
  if (view.least_opening.known()) {
    job.facts.set(fact::mouth_opening, view.least_opening.get(), Status::asked);
  } else if (view.mouth.get() != "open wide" || job.dentition != physics::Dentition::adult) {
    return "how far the mouth is open (`mouth open at least 40 mm`)";
  } else {
    const physics::Default& widest = physics::defaults::opened_wide;
    job.facts.set(fact::mouth_opening, widest.value * mm, status_of(widest.origin));
  }
  setting.mouth.opened = physics::jaw_open(*job.facts.get(fact::mouth_opening));
  if (!setting.mouth.opened) return "an opening that a jaw can have";
  return {};
}

/// What a mirror would have to be like, tried in the model.
void try_mirrors(Job& job, const Setting& setting) {
  const auto whole = [](const std::vector<Shown>& shown) {
    return std::none_of(shown.begin(), shown.end(), cut_off);
  };
  const std::vector<const FactRow*> from{&fact::mirror_angle, &fact::pupil_distance};
  for (Length wider = 2.0 * mm; wider <= 60.0 * mm; wider += 2.0 * mm) {
    Setting other = setting;
    other.mirror->width += wider;
    other.mirror->narrow_end += wider;
    if (!whole(look_at(other))) continue;
    job.facts.derive(fact::mirror_width_that_shows, other.mirror->width, from, Status::assumed);
    return;
  }
}

/// Corner of one side; nothing (and what is missing) where it is not known.
bool set_corner(const text::Sourced<model::Retractor>& said,
                std::optional<physics::MouthCorner>& corner) {
  if (!said.known()) return false;
  if (!said->mirror_takes_place && !said->none) corner = corner_of(said.get());
  return true;
}

/// Both corners; in a view from one side only that side's cheek comes between. What is missing.
std::string set_corners(Job& job, Setting& setting) {
  const bool right = set_corner(job.view.right_retractor, setting.mouth.right);
  const bool left = set_corner(job.view.left_retractor, setting.mouth.left);
  const Angle azimuth = *job.facts.get(fact::azimuth);
  const bool from_right = azimuth >= aside;
  const bool from_left = azimuth <= -aside;
  if ((!right && !from_left) || (!left && !from_right)) {
    return from_right || from_left ? "retractor on the side that is shown"
                                   : "retractors of both sides (word `retractor`)";
  }
  const auto& shown = from_left ? setting.mouth.left : setting.mouth.right;
  if (shown) {
    job.facts.set(fact::corner_side, shown->side, Status::assumed);
    job.facts.set(fact::corner_back, shown->back, Status::assumed);
  }
  return {};
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

/// The nearest angle of the mirror at which nothing is hidden and nothing ends beside it; the
/// camera goes with it, so that it stays square to the arch. Tried in the model.
void try_mirror_angles(Job& job, const Setting& setting, Length behind) {
  const auto angle = job.facts.get(fact::mirror_angle);
  if (!angle || job.facts.get(fact::mirror_angle_that_shows)) return;
  for (Angle off = angle_step; off <= steepest_mirror; off += angle_step) {
    for (const Angle a : {*angle + off, *angle - off}) {
      if (a < flattest_mirror || a > steepest_mirror) continue;
      Setting other = setting;
      other.mirror = arch_mirror(setting.mouth.of_upper, behind, a, setting.mirror->width,
                                 setting.mirror->narrow_end, setting.mirror->length);
      const std::vector<Shown> shown = look_at(other);
      const bool all = std::none_of(shown.begin(), shown.end(),
                                    [](const Shown& s) { return stands_behind(s) || cut_off(s); });
      if (!all) continue;
      job.facts.derive(fact::mirror_angle_that_shows, a, {&fact::mirror_angle}, Status::assumed);
      return;
    }
  }
}

/// What would show the hidden ones: another angle, or a firmer pull. Tried in the model.
void try_remedies(Job& job, const Setting& setting) {
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::pupil_distance};
  const auto none_hidden = [](const std::vector<Shown>& shown) {
    return std::none_of(shown.begin(), shown.end(), stands_behind);
  };
  const Angle limit = *job.facts.get(fact::turned_limit);
  const double side = setting.azimuth < Angle{} ? -1.0 : 1.0;
  if (!setting.mirror && abs(setting.azimuth) >= aside) {
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

/// Where the light of the kit's lamp comes from, `sign` +1 for the side of the front teeth, -1 for
/// the cheek's, 0 for a lamp that is above or below; nothing (and what is missing) where not known.
std::optional<physics::Lamp> lamp_of(const Job& job, const Setting& setting, double sign,
                                     std::string& missing) {
  const kit::Lamp* lamp = job.out.chosen.lamp;
  const auto distance = job.facts.get(fact::lamp_distance_to_aim);
  if (!distance) {
    missing = "working distance";
    return std::nullopt;
  }
  const physics::Axes axes = physics::camera_axes(setting.azimuth, setting.elevation, Angle{});
  const physics::Point middle = setting.aim - axes.forward * *distance;
  const kit::LampKind kind = lamp->kind.get();
  if (kind == kit::LampKind::ring) {
    if (!lamp->radius.known()) {
      missing = "radius of the ring light";
      return std::nullopt;
    }
    return physics::ring_lamp(middle, axes, lamp->radius.get(), ring_points);
  }
  if (!lamp->offset.known()) {
    missing = "offset of the lamp from the lens";
    return std::nullopt;
  }
  // In a view from the right the front teeth lie at the right of the picture.
  const double right = setting.azimuth < Angle{} ? -sign : sign;
  return physics::Lamp{{middle + axes.right * (right * lamp->offset.get())}};
}

bool in_shadow(const Shown& s) {
  return s.seen > 0 && !stands_behind(s) && s.shade != Hider::nothing &&
         s.lit < physics::defaults::lit_share.value;
}

std::string shades_text(const std::vector<Shown>& shown) {
  std::string out;
  for (const Shown& s : shown) {
    if (!in_shadow(s)) continue;
    const std::string_view what = s.shade == Hider::cheek ? "the cheek"
                                  : s.shade == Hider::lip ? "a lip"
                                  : s.shade == Hider::gum ? "gum"
                                                          : "another tooth";
    if (out.find(what) == std::string::npos) out += (out.empty() ? "" : ", ") + std::string(what);
  }
  return out;
}

/// Light and shadow on what is seen, with the kit's lamp where it is and on the other side.
void light_scene(Job& job, const Setting& setting) {
  constexpr const char* light_question = "whether the lamp throws a shadow on the teeth";
  const kit::Lamp* lamp = job.out.chosen.lamp;
  if (lamp == nullptr) return; // said by the light
  if (setting.mirror) {
    job.open(light_question, "where the lamp's light comes back from the mirror");
    return;
  }
  if (!lamp->kind.known()) return job.open(light_question, "kind of lamp");
  if (lamp->kind.get() == kit::LampKind::built_in) return; // around the lens: what it sees is lit
  const bool ring = lamp->kind.get() == kit::LampKind::ring;
  const std::string side = job.facts.text(fact::lamp_side);
  const bool aside_view = abs(setting.azimuth) >= aside;
  if (!ring && aside_view && side.empty()) {
    const Fact* f = job.facts.find(fact::lamp_side);
    return job.open(light_question, f == nullptr ? "side of the lamp" : f->why);
  }
  if (!ring && !aside_view) return; // no cheek in the way: straight ahead a side is no matter
  if (const auto d = job.facts.get(fact::working_distance)) {
    job.facts.derive(fact::lamp_distance_to_aim, *d + lamp->behind_front.value_or(0.0 * mm),
                     {&fact::working_distance, &fact::lamp});
  }
  const double sign = side == "the front teeth" ? 1.0 : side == "the cheek" ? -1.0 : 0.0;
  std::string missing;
  const auto here = lamp_of(job, setting, sign, missing);
  if (!here) return job.open(light_question, missing);
  const std::vector<const FactRow*> from{&fact::lamp_side, &fact::azimuth,
                                         &fact::lamp_distance_to_aim};
  job.out.shown = look_at(setting, &*here);
  const std::vector<Shown>& shown = job.out.shown;
  double most = 0;
  double least = 0;
  for (const Shown& s : shown) {
    if (stands_behind(s) || s.light <= 0) continue;
    most = std::max(most, s.light);
    least = least == 0 ? s.light : std::min(least, s.light);
  }
  if (least > 0)
    job.facts.derive(fact::light_evenness, std::log2(most / least) * stop, from, Status::assumed);
  const auto dark = teeth_of(shown, in_shadow);
  if (dark.empty()) return;
  job.facts.derive(fact::teeth_in_shadow, words::teeth_text(dark), from, Status::assumed);
  job.facts.derive(fact::shaded_by, shades_text(shown), from, Status::assumed);
  if (ring || sign == 0) return;
  if (const auto there = lamp_of(job, setting, -sign, missing)) {
    const auto other = teeth_of(look_at(setting, &*there), in_shadow);
    job.facts.derive(fact::in_shadow_other_side, other.empty() ? "none" : words::teeth_text(other),
                     from, Status::assumed);
  }
}

} // namespace

physics::MouthCorner corner_of(const model::Retractor& retractor) {
  namespace d = physics::defaults;
  if (retractor.tension == "firm")
    return {d::corner_side_firm.value * mm, d::corner_back_firm.value * mm};
  if (retractor.tension == "light") {
    return {d::corner_side_light.value * mm, d::corner_back_light.value * mm};
  }
  return {d::corner_side_even.value * mm, d::corner_back_even.value * mm};
}

void plan_scene(Job& job, int& scenes_left) {
  const model::View& view = job.view;
  if (view.kind == model::ViewKind::face || !view.must_show.known() || view.must_show->empty())
    return;
  if (view.right_retractor.broken() || view.left_retractor.broken()) return;
  if (!job.no_teeth.empty()) return; // said by the framing
  std::string missing = missing_for(job);
  Setting setting;
  if (missing.empty()) missing = set_corners(job, setting);
  if (missing.empty() && view.taken_in_mirror) missing = set_mirror(job, setting);
  if (missing.empty()) missing = set_opening(job, setting);
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
  const auto seen = teeth_of(
      shown, [&](const Shown& s) { return !stands_behind(s) && !cut_off(s) && !turned(s); });
  if (!seen.empty())
    job.facts.derive(fact::teeth_seen, words::teeth_text(seen), from, Status::assumed);
  try_corner(job, setting, behind);
  const auto beyond = teeth_of(shown, cut_off);
  if (!beyond.empty()) {
    job.facts.derive(fact::teeth_beside_mirror, words::teeth_text(beyond), from, Status::assumed);
    job.facts.set(fact::mirror_width, setting.mirror->width, Status::measured, {&fact::mirror});
    try_mirrors(job, setting);
  }
  if (!behind.empty()) {
    job.facts.derive(fact::teeth_hidden, words::teeth_text(behind), from, Status::assumed);
    job.facts.derive(fact::hidden_by, hiders_text(shown), from, Status::assumed);
    if (setting.mirror) {
      try_mirror_angles(job, setting, last_back(job) + physics::defaults::mirror_gap.value * mm);
    }
    try_remedies(job, setting);
  }
  light_scene(job, setting);
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
