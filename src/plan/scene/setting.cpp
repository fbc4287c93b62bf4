// Mouth, camera and mirror of one view, as they stand.
#include <algorithm>

#include "physics/mirror.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

/// How far the jaws are apart; what is missing, empty where that is known.
Said set_opening(Job& job, Setting& setting) {
  const model::View& view = job.view;
  const physics::Dentition dentition = job.anatomy->dentition;
  setting.mouth.of_upper = shown_jaw(view) != model::Jaw::lower;
  if (view.teeth.known() && !view.teeth_together() && !view.least_opening.known())
    return missing::teeth_apart();
  if (!view.mouth.known() && !view.least_opening.known()) return {};
  if (view.mouth.known() && view.mouth.get() == "closed") return {};
  if (view.least_opening.known()) {
    job.facts.set(fact::mouth_opening, view.least_opening.get(), Status::asked);
  } else if (view.mouth.get() == "open wide" && job.kit != nullptr &&
             job.kit->mouths.opened_wide.known()) {
    job.facts.set(fact::mouth_opening, job.kit->mouths.opened_wide.get(), Status::measured);
  } else if (view.mouth.get() != "open wide" || dentition == physics::Dentition::primary) {
    return missing::mouth_opening();
  } else {
    const physics::Default& widest = dentition == physics::Dentition::adult
                                         ? physics::defaults::opened_wide
                                         : physics::defaults::opened_wide_mixed;
    job.facts.set(fact::mouth_opening, widest.value * mm, Given(widest).status());
  }
  setting.mouth.opened = physics::jaw_open(job.anatomy->jaw, *job.facts.get(fact::mouth_opening));
  if (!setting.mouth.opened) return missing::possible_opening();
  return {};
}

/// Corner of one side; nothing (and what is missing) where it is not known.
bool set_corner(const Job& job, const text::Sourced<model::Retractor>& said,
                std::optional<physics::MouthCorner>& corner) {
  if (!said.known()) return false;
  if (!said->mirror_takes_place && !said->none) corner = corner_of(job, said.get()).corner;
  return true;
}

/// Both corners; in a view from one side only that side's cheek comes between. What is missing.
Said set_corners(Job& job, Setting& setting) {
  const bool right = set_corner(job, job.view.right_retractor, setting.mouth.right);
  const bool left = set_corner(job, job.view.left_retractor, setting.mouth.left);
  const Angle azimuth = *job.facts.get(fact::azimuth);
  // In a mirror inside of the arch it is the image that looks from the side, across the tongue: the
  // camera itself looks in from the front.
  const bool inner = job.view.taken_in_mirror && job.view.mirror.known() &&
                     (job.view.mirror->use == model::MirrorUse::lingual ||
                      job.view.mirror->use == model::MirrorUse::disc);
  const bool from_right = !inner && from_side(azimuth) && azimuth > Angle{};
  const bool from_left = !inner && from_side(azimuth) && azimuth < Angle{};
  if ((!right && !from_left) || (!left && !from_right)) {
    return from_right || from_left ? missing::retractor_of_side() : missing::retractors();
  }
  // Whose corner counts most: teeth of the left side stand across from an image at the right.
  const bool of_left = from_left || (inner && from_side(azimuth) && azimuth > Angle{});
  const auto& shown = of_left ? setting.mouth.left : setting.mouth.right;
  if (shown) {
    const auto& said = of_left ? job.view.left_retractor : job.view.right_retractor;
    const Status status = corner_of(job, said.get()).status;
    job.facts.set(fact::corner_side, shown->side, status);
    job.facts.set(fact::corner_back, shown->back, status);
  }
  if (job.kit != nullptr && job.kit->mouths.lips_clear.known())
    setting.mouth.lips_clear = job.kit->mouths.lips_clear.get();
  return {};
}

Said missing_for(const Job& job) {
  if (!job.axes) return missing::camera_looks_from();
  if (!job.aim) return missing::aim();
  if (!job.facts.get(fact::pupil_distance)) return missing::focal_length_and_ratio();
  if (!job.facts.get(fact::field_width)) return missing::ratio_and_sensor();
  return {};
}

} // namespace

HeldCorner corner_of(const Job& job, const model::Retractor& retractor) {
  namespace d = physics::defaults;
  const bool firm = retractor.tension == "firm";
  const bool light = retractor.tension == "light";
  const physics::Default& aside_usual = firm    ? d::corner_side_firm
                                        : light ? d::corner_side_light
                                                : d::corner_side_even;
  const physics::Default& back_usual = firm    ? d::corner_back_firm
                                       : light ? d::corner_back_light
                                               : d::corner_back_even;
  HeldCorner held{{aside_usual.value * mm, back_usual.value * mm}};
  if (job.kit == nullptr) return held;
  const kit::Mouths& mouths = job.kit->mouths;
  const kit::Mouths::Corner& own = firm ? mouths.firm : light ? mouths.light : mouths.even;
  held.corner = {own.aside.value_or(held.corner.side), own.back.value_or(held.corner.back)};
  if (own.aside.known() && own.back.known()) held.status = Status::measured;
  return held;
}

std::vector<physics::Wanted> wanted_of(const Job& job, const model::Faces& faces) {
  std::vector<physics::Wanted> out;
  for (const model::NamedFace& f : standing(job, faces)) {
    const physics::Wanted wanted{f.tooth, surface_of(f.face)};
    if (std::find(out.begin(), out.end(), wanted) == out.end()) out.push_back(wanted);
  }
  return out;
}

std::optional<Setting> setting_of(Job& job, Said& missing) {
  const model::View& view = job.view;
  Setting setting;
  missing = missing_for(job);
  if (missing.empty()) missing = set_corners(job, setting);
  if (missing.empty()) missing = set_opening(job, setting);
  if (!missing.empty()) return std::nullopt;
  setting.seen_share = job.limit(physics::defaults::shown_share).value();
  setting.mirror_share = job.limit(physics::defaults::mirror_share).value();
  setting.lit_share = job.limit(physics::defaults::lit_share).value();
  setting.mouth.anatomy = job.anatomy;
  if (job.protocol.missing.known()) setting.mouth.missing = job.protocol.missing.get();
  setting.azimuth = *job.facts.get(fact::azimuth);
  setting.elevation = *job.facts.get(fact::elevation);
  setting.roll = *job.facts.get(fact::roll);
  setting.axes = *job.axes;
  setting.aim = *job.aim;
  setting.ratio = *job.facts.get(fact::ratio);
  setting.pupil_distance = *job.facts.get(fact::pupil_distance);
  const double m = setting.ratio.value();
  setting.sensor = {*job.facts.get(fact::field_width) * m, *job.facts.get(fact::field_height) * m};
  setting.wanted = wanted_of(job, view.must_show.get());
  if (view.taken_in_mirror) missing = place_mirror(job, setting);
  if (!missing.empty()) return std::nullopt;
  return setting;
}

physics::Eye eye_of(const Setting& s) {
  physics::Eye eye;
  const physics::Point seen_from = s.aim - s.axes.forward * s.pupil_distance;
  eye.lens = {seen_from, s.axes, s.ratio, s.pupil_distance};
  eye.pupil =
      s.mirror ? physics::reflected(seen_from, s.mirror->middle, s.mirror->normal) : seen_from;
  eye.sensor = s.sensor;
  eye.mirror = s.mirror;
  return eye;
}

std::vector<Shown> look_at(const Setting& s, const physics::Lamp* lamp) {
  const physics::Mouth mouth = physics::make_mouth(s.mouth);
  std::vector<Shown> shown = physics::look(mouth, eye_of(s), lamp, s.wanted);
  for (Shown& one : shown) {
    one.enough_seen = one.seen >= s.seen_share * one.facing;
    one.in_mirror = one.beside <= (1.0 - s.mirror_share) * one.facing + 1e-9;
    one.enough_lit = one.lit >= s.lit_share;
  }
  return shown;
}

} // namespace norma::plan
