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
    job.facts.derive(fact::mirror_moved, abs(moved), {&fact::mirror, &fact::mirror_angle},
                     Status::assumed);
    job.facts.set(fact::mirror_moved_to, moved > Length{} ? model::Side::left : model::Side::right,
                  Status::assumed);
  }
  return pose;
}

std::optional<Pose> placed_round(Job& job, const Setting& setting, const Pose& bare) {
  const auto found = placing::search_round_mirror(setting, bare, setting.mirror->sheet.width);
  if (!found) return std::nullopt;
  job.facts.derive(fact::mirror_behind_teeth, found->behind, {&fact::mirror}, Status::assumed);
  job.facts.derive(fact::camera_below, found->below, {&fact::mirror}, Status::assumed);
  return found->pose;
}

std::optional<Pose> placed_in_cheek(Job& job, const Setting& setting, const Pose& bare) {
  const auto found = placing::place_cheek_mirror(setting, bare);
  if (!found) return std::nullopt;
  if (const auto& corner = setting.corners.by_mirror) {
    job.facts.set(fact::corner_by_mirror, corner->side, Status::measured);
  } else {
    job.open(question::cheek_gives_way, missing::corner_by_mirror());
  }
  if (found->within) {
    job.facts.derive(fact::mirror_from_midline_with_room, found->within->opened,
                     {&fact::corner_by_mirror}, Status::assumed);
    job.facts.set(fact::seen_with_room, found->within->seen, Status::assumed);
  }
  const std::vector<const FactRow*> from{&fact::mirror_from_midline};
  job.facts.derive(fact::mirror_at_corner, found->at_corner, from, Status::assumed);
  job.facts.derive(fact::mirror_from_midline, found->at.opened, {&fact::mirror, &fact::azimuth},
                   Status::assumed);
  job.facts.derive(fact::camera_azimuth, placing::camera_itself(found->at.pose), from,
                   Status::assumed);
  return found->at.pose;
}

std::optional<Pose> placed_beside_tongue(Job& job, const Setting& setting, const Pose& bare) {
  const auto [found, width] = placing::place_tongue_mirror_or_fit(setting, bare);
  const std::vector<const FactRow*> from{&fact::mirror, &fact::azimuth, &fact::mouth_opening};
  if (!found || !found->all) {
    job.facts.set(fact::mirror_width, placing::outline_of(setting.mirror->sheet).width,
                  Status::measured, {&fact::mirror});
    if (width) job.facts.derive(fact::mirror_width_that_fits, *width, from, Status::assumed);
  }
  if (!found || found->seen <= 0) {
    job.facts.derive(fact::mirror_no_place, phrase::between_tongue_and_teeth(), from,
                     Status::assumed);
    return std::nullopt;
  }
  job.facts.derive(fact::camera_azimuth, found->stand.azimuth, from, Status::assumed);
  job.facts.derive(fact::camera_below, found->stand.above, from, Status::assumed);
  job.facts.derive(fact::mirror_rise, found->stand.rise, from, Status::assumed);
  job.facts.derive(fact::mirror_off_teeth, found->stand.off, from, Status::assumed);
  job.facts.derive(fact::camera_turn, found->turn, from, Status::assumed);
  return found->pose;
}

/// What is missing of view or mirror; empty where it can be placed.
Said missing_for_mirror(const Job& job) {
  if (!job.view.mirror.known()) return missing::which_mirror();
  const model::MirrorUse use = job.view.mirror->use;
  const kit::Mirror* mirror = job.out.chosen.mirror;
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
  if (mirror.outline.known() && mirror.outline.get() == kit::MirrorOutline::rounded)
    sheet.shape = placing::Sheet::Shape::rounded;
  if (mirror.outline.known() && mirror.outline.get() == kit::MirrorOutline::two_ends)
    sheet.shape = placing::Sheet::Shape::two_ends;
  sheet.small_end_in = use.end == model::End::small_end;
  return sheet;
}

std::optional<Pose> placed_mirror(Job& job, Setting& setting, const Pose& bare, Said& missing) {
  missing = missing_for_mirror(job);
  if (!missing.empty()) return std::nullopt;
  const model::Mirror& use = job.view.mirror.get();
  setting.mirror = placing::UsedMirror{use_of(use.use), sheet_of(*job.out.chosen.mirror, use),
                                       job.facts.get(fact::mirror_angle)};
  std::optional<Pose> pose;
  switch (setting.mirror->use) {
  case placing::MirrorUse::over_arch: return placed_over_arch(job, setting, bare);
  case placing::MirrorUse::in_cheek: pose = placed_in_cheek(job, setting, bare); break;
  case placing::MirrorUse::round: pose = placed_round(job, setting, bare); break;
  case placing::MirrorUse::beside_tongue: pose = placed_beside_tongue(job, setting, bare); break;
  }
  if (!pose) missing = missing::mirror_place();
  return pose;
}

} // namespace norma::plan
