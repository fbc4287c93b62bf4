// Mouth, camera and mirror of one view, as they stand.
#include <algorithm>

#include "placing/lamp.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

/// How far the jaws are apart; what is missing, empty where that is known.
Said set_opening(Job& job, Setting& setting) {
  const model::View& view = job.view;
  const physics::Dentition dentition = job.anatomy()->dentition;
  setting.mouth.of_upper = shown_jaw(view) != model::Jaw::lower;
  if (view.teeth.known() && !view.teeth_together() && !view.least_opening.known())
    return missing::teeth_apart();
  if (!view.mouth.known() && !view.least_opening.known()) return {};
  if (view.mouth.known() && view.mouth.get() == model::MouthState::closed) return {};
  if (view.least_opening.known()) {
    job.facts.give_asked(fact::mouth_opening, view.least_opening.get());
  } else {
    const bool adult = dentition == physics::Dentition::adult;
    const physics::Default& usual =
        adult ? physics::defaults::opened_wide : physics::defaults::opened_wide_mixed;
    const Given widest(usual,
                       job.has_kit() ? job.kit_->mouths.opened_wide : text::Sourced<Length>());
    const bool known =
        dentition != physics::Dentition::primary || widest.status() == Status::measured;
    if (view.mouth.get() != model::MouthState::open_wide || !known) return missing::mouth_opening();
    job.facts.give(fact::mouth_opening, widest);
  }
  setting.opening = job.facts.get(fact::mouth_opening);
  setting.mouth.opened = physics::jaw_open(job.anatomy()->jaw, *setting.opening);
  if (!setting.mouth.opened) return missing::possible_opening();
  return {};
}

/// Where a retractor with this pull holds the corner of the mouth: as the kit has measured it, else
/// assumed.
struct HeldCorner {
  Given aside;
  Given back;
  [[nodiscard]] bool like(const HeldCorner& o) const {
    return aside.value() == o.aside.value() && back.value() == o.back.value();
  }
  [[nodiscard]] physics::MouthCorner corner() const {
    return {aside.as<Length>(), back.as<Length>()};
  }
};
HeldCorner held_corner(const Job& job, std::optional<model::Tension> tension) {
  namespace d = physics::defaults;
  static const kit::Mouths none;
  const kit::Mouths& mouths = job.has_kit() ? job.kit_->mouths : none;
  if (tension == model::Tension::firm)
    return {{d::corner_side_firm, mouths.firm.aside}, {d::corner_back_firm, mouths.firm.back}};
  if (tension == model::Tension::light)
    return {{d::corner_side_light, mouths.light.aside}, {d::corner_back_light, mouths.light.back}};
  return {{d::corner_side_even, mouths.even.aside}, {d::corner_back_even, mouths.even.back}};
}

/// The corner of one side; nothing where no retractor holds it.
std::optional<HeldCorner> corner_of(const Job& job, const text::Sourced<model::Retractor>& said) {
  if (!said.known() || said->mirror_takes_place || said->none) return std::nullopt;
  return held_corner(job, said->tension);
}

/// Both corners; in a view from one side only that side's cheek comes between. What is missing.
Said set_corners(Job& job, Setting& setting) {
  const bool right = job.view.right_retractor.known();
  const bool left = job.view.left_retractor.known();
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
  const auto of_right_side = corner_of(job, job.view.right_retractor);
  const auto of_left_side = corner_of(job, job.view.left_retractor);
  if (of_right_side) setting.mouth.right = of_right_side->corner();
  if (of_left_side) setting.mouth.left = of_left_side->corner();
  const auto& shown = of_left ? of_left_side : of_right_side;
  const auto& other = of_left ? of_right_side : of_left_side;
  if (shown) {
    job.facts.take(fact::corner_side, shown->aside);
    job.facts.take(fact::corner_back, shown->back);
  }
  // Held alike it is told once.
  if (other && !(shown && shown->like(*other))) {
    job.facts.take(fact::other_corner_side, other->aside);
    job.facts.take(fact::other_corner_back, other->back);
  }
  setting.mouth.lips_clear = job.facts.take(
      fact::lips_clear, {physics::defaults::lip_clear,
                         job.has_kit() ? job.kit_->mouths.lips_clear : text::Sourced<Length>()});
  return {};
}

Said missing_for(const Job& job) {
  if (!job.axes()) return missing::camera_looks_from();
  if (!job.aim()) return missing::aim();
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

/// Nothing where it is not asked for, or cannot be told.
std::optional<placing::Sharp> sharp_of(const Job& job) {
  const auto narrowest = job.facts.get(fact::narrowest_allowed);
  const auto blur = job.facts.get(fact::allowed_blur);
  const auto pupil = job.facts.get(fact::pupil_ratio);
  if (!job.view.must_be_sharp.known() || !narrowest || !blur || !pupil) return std::nullopt;
  placing::Sharp sharp;
  sharp.surfaces = surfaces_of(job, job.view.must_be_sharp.get()).placed;
  if (sharp.surfaces.empty()) return std::nullopt; // said with the depth
  sharp.band = band_of(job.view.sharp_third);
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

/// Whoever asks for what hangs on one of them reads its fact.
placing::Limits limits_of(const Job& job) {
  namespace d = physics::defaults;
  const Recording apart(job.facts);
  return {job.limit(d::shown_share).as<Share>(),
          job.limit(d::mirror_share).as<Share>(),
          job.limit(d::lit_share).as<Share>(),
          job.limit(d::mirror_gap).as<Length>(),
          job.view.turned_away.known() ? job.view.turned_away.get() : turned_limit(job).as<Angle>(),
          job.limit(d::squarely).as<Angle>()};
}

/// As a firm pull holds them, and as far as a mirror may; the latter where the kit says so. The
/// same holds for them.
placing::Corners corners_of(const Job& job) {
  placing::Corners out{held_corner(job, model::Tension::firm).corner(), {}};
  if (!job.has_kit()) return out;
  const kit::Mouths::Corner& own = job.kit_->mouths.by_mirror;
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
  camera.axes = *job.axes();
  camera.aim = *job.aim();
  if (view.centre.known()) camera.aimed_at = centred_on(job, view.centre.get());
  camera.ratio = *job.facts.get(fact::ratio);
  camera.pupil_distance = *job.facts.get(fact::pupil_distance);
  const double m = camera.ratio.value();
  camera.sensor = {*job.facts.get(fact::field_width) * m, *job.facts.get(fact::field_height) * m};
  camera.stays = view.camera.known() && view.camera->elevation != Angle{};
  return camera;
}

} // namespace

void read_firm_pull(const Job& job) {
  const HeldCorner firm = held_corner(job, model::Tension::firm);
  job.facts.take(fact::firm_corner_side, firm.aside);
  job.facts.take(fact::firm_corner_back, firm.back);
}

std::optional<Placed> placed_view(Job& job, Said& missing) {
  const Recording whole(job.facts);
  Setting setting;
  setting.mouth = at_rest(job);
  missing = missing_for(job);
  if (missing.empty()) missing = set_corners(job, setting);
  if (missing.empty()) missing = set_opening(job, setting);
  if (!missing.empty()) return std::nullopt;
  setting.camera = camera_of(job);
  const NamedSurfaces surfaces = surfaces_of(job, job.view.must_show.get());
  if (surfaces.placed.empty()) {
    missing = surfaces.why_none(missing::tooth_of_those_named);
    return std::nullopt;
  }
  setting.wanted = each_once(surfaces.placed);
  setting.limits = limits_of(job);
  setting.corners = corners_of(job);
  facts::Record sharp_read;
  {
    const Recording one(job.facts);
    setting.sharp = sharp_of(job);
    sharp_read = job.facts.kept();
  }
  facts::Record lamp_read;
  Said no_lamp;
  {
    const Recording one(job.facts);
    no_lamp = set_lamps(job, setting);
    lamp_read = job.facts.kept();
  }
  std::optional<Pose> pose = placing::bare_pose(setting);
  if (job.view.taken_in_mirror) pose = placed_mirror(job, setting, *pose, lamp_read, missing);
  if (!pose) return std::nullopt;
  read_least_seen(job);
  auto lamp = placing::lamp_of(setting, *pose);
  return Placed{std::move(setting), std::move(*pose),     std::move(lamp),      std::move(no_lamp),
                job.facts.kept(),   std::move(lamp_read), std::move(sharp_read)};
}

} // namespace norma::plan
