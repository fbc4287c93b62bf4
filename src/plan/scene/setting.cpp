// Mouth, camera and mirror of one view, as they stand.
#include <algorithm>

#include "placing/lamp.hpp"
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
  if (view.mouth.known() && view.mouth.get() == model::MouthState::closed) return {};
  if (view.least_opening.known()) {
    job.facts.set(fact::mouth_opening, view.least_opening.get(), Status::asked);
  } else if (view.mouth.get() == model::MouthState::open_wide && job.kit != nullptr &&
             job.kit->mouths.opened_wide.known()) {
    job.facts.set(fact::mouth_opening, job.kit->mouths.opened_wide.get(), Status::measured);
  } else if (view.mouth.get() != model::MouthState::open_wide || dentition == physics::Dentition::primary) {
    return missing::mouth_opening();
  } else {
    const physics::Default& widest = dentition == physics::Dentition::adult
                                         ? physics::defaults::opened_wide
                                         : physics::defaults::opened_wide_mixed;
    job.facts.set(fact::mouth_opening, widest.value * mm, status_of(widest.origin));
  }
  setting.opening = job.facts.get(fact::mouth_opening);
  setting.mouth.opened = physics::jaw_open(job.anatomy->jaw, *setting.opening);
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
  const bool from_right = !inner && placing::from_side(azimuth) && azimuth > Angle{};
  const bool from_left = !inner && placing::from_side(azimuth) && azimuth < Angle{};
  if ((!right && !from_left) || (!left && !from_right)) {
    return from_right || from_left ? missing::retractor_of_side() : missing::retractors();
  }
  // Whose corner counts most: teeth of the left side stand across from an image at the right.
  const bool of_left = from_left || (inner && placing::from_side(azimuth) && azimuth > Angle{});
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

std::vector<physics::Wanted> each_once(const std::vector<physics::Wanted>& surfaces) {
  std::vector<physics::Wanted> out;
  for (const physics::Wanted& w : surfaces) {
    if (std::find(out.begin(), out.end(), w) == out.end()) out.push_back(w);
  }
  return out;
}

/// The teeth that stand where these are named; nothing where a thing is named, or none stands.
std::optional<placing::TeethPair> pair_of(const Job& job, const model::Aim& aim) {
  if (aim.thing) return std::nullopt;
  const physics::Crown* first = crown_at(job, aim.first);
  const physics::Crown* second = crown_at(job, aim.second);
  if (first == nullptr || second == nullptr) return std::nullopt;
  return placing::TeethPair{first->tooth, second->tooth};
}

/// Nothing where it is not asked for, or cannot be told.
std::optional<placing::Sharp> sharp_of(const Job& job) {
  const auto narrowest = job.facts.get(fact::narrowest_allowed);
  const auto blur = job.facts.get(fact::allowed_blur);
  const auto pupil = job.facts.get(fact::pupil_ratio);
  if (!job.view.must_be_sharp.known() || !narrowest || !blur || !pupil) return std::nullopt;
  placing::Sharp sharp;
  Said missing; // said with the depth
  auto surfaces = surfaces_of(job, job.view.must_be_sharp.get(), missing);
  if (!surfaces || surfaces->empty()) return std::nullopt;
  sharp.surfaces = std::move(*surfaces);
  if (job.view.focus.known() && !job.view.focus->thing) {
    sharp.focus = pair_of(job, job.view.focus.get());
    if (!sharp.focus) return std::nullopt;
    sharp.focused = surface_of(main_face(job.view));
  }
  sharp.blur = *blur;
  sharp.narrowest = *narrowest;
  sharp.set = job.facts.get(fact::aperture);
  sharp.pupil_ratio = *pupil;
  sharp.focal_length = job.facts.get(fact::focal_length);
  return sharp;
}

placing::Limits limits_of(const Job& job) {
  namespace d = physics::defaults;
  return {Share{job.limit(d::shown_share).value},
          Share{job.limit(d::mirror_share).value},
          Share{job.limit(d::lit_share).value},
          job.limit(d::mirror_gap).value * mm,
          turned_limit(job).angle,
          job.limit(d::squarely).value * degree};
}

/// As a firm pull holds them, and as far as a mirror may; the latter where the kit says so.
placing::Corners corners_of(const Job& job) {
  model::Retractor pull;
  pull.tension = model::Tension::firm;
  placing::Corners out{corner_of(job, pull).corner, {}};
  if (job.kit == nullptr) return out;
  const kit::Mouths::Corner& own = job.kit->mouths.by_mirror;
  if (own.aside.known() && own.back.known())
    out.by_mirror = physics::MouthCorner{own.aside.get(), own.back.get()};
  return out;
}

placing::Camera camera_of(const Job& job) {
  const model::View& view = job.view;
  placing::Camera camera;
  camera.azimuth = *job.facts.get(fact::azimuth);
  camera.elevation = *job.facts.get(fact::elevation);
  camera.roll = *job.facts.get(fact::roll);
  camera.axes = *job.axes;
  camera.aim = *job.aim;
  if (view.centre.known()) camera.aimed_at = pair_of(job, view.centre.get());
  camera.ratio = *job.facts.get(fact::ratio);
  camera.pupil_distance = *job.facts.get(fact::pupil_distance);
  const double m = camera.ratio.value();
  camera.sensor = {*job.facts.get(fact::field_width) * m, *job.facts.get(fact::field_height) * m};
  camera.stays = view.camera.known() && view.camera->elevation != Angle{};
  return camera;
}

} // namespace

HeldCorner corner_of(const Job& job, const model::Retractor& retractor) {
  namespace d = physics::defaults;
  const bool firm = retractor.tension == model::Tension::firm;
  const bool light = retractor.tension == model::Tension::light;
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

std::optional<Placed> placed_view(Job& job, Said& missing) {
  Setting setting;
  setting.mouth = at_rest(job);
  missing = missing_for(job);
  if (missing.empty()) missing = set_corners(job, setting);
  if (missing.empty()) missing = set_opening(job, setting);
  if (!missing.empty()) return std::nullopt;
  setting.camera = camera_of(job);
  const auto surfaces = surfaces_of(job, job.view.must_show.get(), missing);
  if (!surfaces) return std::nullopt;
  setting.wanted = each_once(*surfaces);
  setting.sharp = sharp_of(job);
  setting.limits = limits_of(job);
  setting.corners = corners_of(job);
  Said unlit; // said by the light
  setting.lamp = camera_lamp(job, unlit);
  std::optional<Pose> pose = placing::bare_pose(setting);
  if (job.view.taken_in_mirror) pose = placed_mirror(job, setting, *pose, missing);
  if (!pose) return std::nullopt;
  auto lamp = placing::lamp_of(setting, *pose);
  return Placed{std::move(setting), std::move(*pose), std::move(lamp)};
}

} // namespace norma::plan
