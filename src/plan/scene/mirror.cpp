// The kit's mirror in its place in the mouth, and how it is said to stand.
#include "placing/mirror.hpp"

#include "placing/arch_mirror.hpp"
#include "placing/cheek_mirror.hpp"
#include "placing/outline.hpp"
#include "placing/round_mirror.hpp"
#include "placing/tongue_mirror.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

Pose placed_over_arch(Job& job, const Setting& setting, const Pose& bare) {
  Pose pose = placing::with_arch_mirror(setting, bare, setting.mirror->sheet);
  const Length moved = pose.mirror->middle.x;
  if (moved != Length{}) {
    job.facts.put(fact::mirror_moved, abs(moved));
    job.facts.put(fact::mirror_moved_to, moved > Length{} ? model::Side::left : model::Side::right);
  }
  return pose;
}

std::optional<Pose> placed_round(Job& job, const Setting& setting, const Pose& bare) {
  const auto found = placing::search_round_mirror(setting, bare, setting.mirror->sheet.width);
  if (!found) return std::nullopt;
  job.facts.put(fact::mirror_behind_teeth, found->behind);
  job.facts.put(fact::camera_below, found->below);
  return found->pose;
}

std::optional<Pose> placed_in_cheek(Job& job, const Setting& setting, const Pose& bare) {
  const auto found = placing::place_cheek_mirror(setting, bare);
  if (!found) return std::nullopt;
  if (const auto& corner = setting.corners.by_mirror) {
    job.facts.put_of_kit(fact::corner_by_mirror, corner->side);
    job.facts.find(fact::corner_by_mirror);
    read_least_seen(job);
  } else {
    job.open(question::cheek_gives_way, missing::corner_by_mirror());
    job.facts.take(physics::defaults::corner_back_firm);
  }
  if (found->within) {
    job.facts.put(fact::mirror_from_midline_with_room, found->within->opened);
    job.facts.put(fact::seen_with_room, found->within->seen);
  }
  job.facts.put(fact::mirror_at_corner, found->at_corner);
  job.facts.put(fact::mirror_from_midline, found->at.opened);
  job.facts.put(fact::camera_azimuth, placing::camera_itself(found->at.pose));
  return found->at.pose;
}

std::optional<Pose> placed_beside_tongue(Job& job, const Setting& setting, const Pose& bare) {
  const auto [found, width] = placing::place_tongue_mirror_or_fit(setting, bare);
  read_least_seen(job);
  if (!found || !found->all) {
    job.facts.put_of_kit(fact::mirror_width, placing::outline_of(setting.mirror->sheet).width);
    if (width) job.facts.put(fact::mirror_width_that_fits, *width);
  }
  if (!found || found->seen <= 0) {
    job.facts.put(fact::mirror_no_place, phrase::between_tongue_and_teeth());
    return std::nullopt;
  }
  job.facts.put(fact::camera_azimuth, found->stand.azimuth);
  job.facts.put(fact::camera_below, found->stand.above);
  job.facts.put(fact::mirror_rise, found->stand.rise);
  job.facts.put(fact::mirror_off_teeth, found->stand.off);
  job.facts.put(fact::camera_turn, found->turn);
  return found->pose;
}

/// What is missing of view or mirror; empty where it can be placed.
Said missing_for_mirror(const Job& job) {
  if (!job.view.mirror.known()) return missing::which_mirror();
  const model::MirrorUse use = job.view.mirror->use;
  const kit::Mirror* mirror = job.mirror();
  if (mirror == nullptr) return missing::mirror_of_kit();
  if (!mirror->width.known()) return missing::mirror_width();
  if (use != model::MirrorUse::disc && !mirror->length.known()) return missing::mirror_length();
  const bool two_ends =
      mirror->outline.known() && mirror->outline.get() == kit::MirrorOutline::two_ends;
  if (two_ends && job.view.mirror->end == model::End::small_end && !mirror->narrow_end.known())
    return missing::narrow_end();
  if (use == model::MirrorUse::occlusal &&
      (!shown_jaw(job.view) || !job.facts.get(fact::mirror_angle)))
    return missing::jaw_shown_in_mirror();
  return {};
}

placing::MirrorUse use_of(model::MirrorUse use) {
  switch (use) {
  case model::MirrorUse::occlusal: return placing::MirrorUse::over_arch;
  case model::MirrorUse::buccal: return placing::MirrorUse::in_cheek;
  case model::MirrorUse::disc: return placing::MirrorUse::round;
  case model::MirrorUse::lingual: return placing::MirrorUse::beside_tongue;
  }
  return placing::MirrorUse::over_arch;
}

} // namespace

placing::Sheet sheet_of(const kit::Mirror& mirror, const model::Mirror& use) {
  const auto if_known = [](const text::Sourced<Length>& size) {
    return size.known() ? std::optional(size.get()) : std::nullopt;
  };
  placing::Sheet sheet;
  sheet.width = mirror.width.get();
  sheet.narrow_end = if_known(mirror.narrow_end);
  sheet.length = mirror.length.value_or(Length{}); // a round one has none
  sheet.corner = if_known(mirror.corner);
  sheet.thickness = mirror.glass.value_or(Length{});
  if (mirror.outline.known() && mirror.outline.get() == kit::MirrorOutline::rounded)
    sheet.shape = placing::Sheet::Shape::rounded;
  if (mirror.outline.known() && mirror.outline.get() == kit::MirrorOutline::two_ends)
    sheet.shape = placing::Sheet::Shape::two_ends;
  sheet.small_end_in = use.end == model::End::small_end;
  return sheet;
}

std::optional<Pose> placed_mirror(Job& job, Setting& setting, const Pose& bare,
                                  const facts::Record& lamp, Said& missing) {
  missing = missing_for_mirror(job);
  if (!missing.empty()) return std::nullopt;
  const model::Mirror& use = job.view.mirror.get();
  const placing::Sheet sheet = sheet_of(*job.mirror(), use);
  setting.mirror = placing::UsedMirror{use_of(use.use), sheet, job.facts.get(fact::mirror_angle)};
  if (sheet.shape != placing::Sheet::Shape::straight && !sheet.corner)
    job.facts.take(physics::defaults::mirror_corner);
  if (use.use != model::MirrorUse::disc) job.limit(fact::mirror_gap, physics::defaults::mirror_gap);
  // Where its place is searched, one is better that does not show the lamp.
  if (use.use != model::MirrorUse::occlusal) job.facts.use(lamp);
  std::optional<Pose> pose;
  switch (setting.mirror->use) {
  case placing::MirrorUse::over_arch: pose = placed_over_arch(job, setting, bare); break;
  case placing::MirrorUse::in_cheek: pose = placed_in_cheek(job, setting, bare); break;
  case placing::MirrorUse::round: pose = placed_round(job, setting, bare); break;
  case placing::MirrorUse::beside_tongue: pose = placed_beside_tongue(job, setting, bare); break;
  }
  if (!pose) missing = missing::mirror_place();
  for (const FactRow* row : std::initializer_list<const FactRow*>{
           &fact::mirror_moved, &fact::mirror_behind_teeth, &fact::mirror_from_midline,
           &fact::camera_azimuth, &fact::camera_below, &fact::mirror_rise, &fact::mirror_off_teeth})
    job.facts.find(*row);
  return pose;
}

} // namespace norma::plan
