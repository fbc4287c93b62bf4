// What would show what a view does not show.
#include "placing/remedies.hpp"

#include "placing/arch_mirror.hpp"
#include "placing/cheek_mirror.hpp"
#include "placing/room.hpp"
#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

constexpr std::size_t most_tried = 4; // mirrors, whatever the kit holds

/// Those of the kit of one kind whose sizes are known, in its order; `most` at most.
std::vector<const kit::Mirror*> mirrors_of(const Job& job, kit::MirrorKind kind, std::size_t most) {
  std::vector<const kit::Mirror*> out;
  for (const kit::Mirror& m : job.kit->mirrors) {
    if (out.size() == most) break;
    if (m.kind.known() && m.kind.get() == kind && m.width.known() && m.length.known())
      out.push_back(&m);
  }
  return out;
}

std::vector<placing::Sheet> sheets_of(const std::vector<const kit::Mirror*>& mirrors,
                                      const model::Mirror& use) {
  std::vector<placing::Sheet> out;
  out.reserve(mirrors.size());
  for (const kit::Mirror* m : mirrors)
    out.push_back(sheet_of(*m, use));
  return out;
}

} // namespace

void try_mirrors(Job& job, const Placed& view) {
  if (!view.setting.mirror) return;
  const auto larger = placing::larger_mirror_that_shows(view.setting, view.pose);
  if (!larger) return;
  const std::vector<const FactRow*> from{&fact::mirror_angle, &fact::pupil_distance};
  if (larger->longer) {
    job.facts.derive(fact::mirror_length_that_shows, larger->sheet.length, from, Status::assumed);
    return;
  }
  job.facts.derive(fact::mirror_width_that_shows, larger->pose.mirror->width, from,
                   Status::assumed);
  if (view.setting.mirror->use != placing::MirrorUse::over_arch) return;
  if (const auto room = placing::room_at_corners(larger->pose);
      room && room->mirror > room->between)
    job.facts.set(fact::wider_mirror_without_room, phrase::corners_of_mouth(), Status::assumed);
}

void try_remedies(Job& job, const Placed& view) {
  const Setting& setting = view.setting;
  const Pose& pose = view.pose;
  if (setting.mirror && setting.mirror->opened) {
    const auto angle = placing::nearest_good_angle(setting, pose, [&](const Pose& other) {
      return placing::shows_all(placing::look_at(setting, other));
    });
    if (angle)
      job.facts.derive(fact::mirror_angle_that_shows, *angle, {&fact::mirror_angle},
                       Status::assumed);
  }
  if (const auto other = placing::azimuth_that_shows(setting, pose)) {
    const std::vector<const FactRow*> from{&fact::azimuth, &fact::pupil_distance};
    job.facts.derive(fact::azimuth_that_shows, other->azimuth, from, Status::assumed);
    if (!other->sharp)
      job.facts.derive(fact::azimuth_not_sharp, phrase::not_all_sharp(), from, Status::assumed);
  }
  if (placing::firm_pull_shows_all(setting, pose))
    job.facts.set(fact::seen_with_firm_pull, phrase::all_are_seen(), Status::assumed);
}

void try_smaller_mirror(Job& job, const Placed& view) {
  if (!view.setting.mirror || view.setting.mirror->use != placing::MirrorUse::over_arch) return;
  const auto mirrors = mirrors_of(job, kit::MirrorKind::occlusal, job.kit->mirrors.size());
  const auto narrower = placing::narrower_mirror_that_shows(
      view.setting, view.pose, sheets_of(mirrors, job.view.mirror.get()), most_tried);
  if (!narrower) return;
  const kit::Mirror& best = *mirrors[*narrower];
  job.facts.set(fact::smaller_mirror,
                best.name.known() ? Said(best.name.get()) : phrase::narrower_mirror(),
                Status::assumed, {&fact::mirror, &fact::mirror_angle});
}

void try_without_mirror(Job& job, const Placed& view) {
  if (!view.setting.mirror || view.setting.mirror->use != placing::MirrorUse::in_cheek) return;
  if (const auto azimuth = placing::azimuth_without_mirror(view.setting, view.pose))
    job.facts.derive(fact::direct_azimuth, *azimuth, {&fact::azimuth}, Status::assumed);
}

void try_side_mirror(Job& job, const Placed& view) {
  if (job.kit == nullptr) return;
  const auto mirrors = mirrors_of(job, kit::MirrorKind::buccal, most_tried);
  const auto found =
      placing::cheek_mirror_instead(view.setting, view.pose, sheets_of(mirrors, model::Mirror{}));
  if (!found) return;
  if (const auto& corner = view.setting.corners.by_mirror)
    job.facts.set(fact::corner_by_mirror, corner->side, Status::measured);
  const kit::Mirror& m = *mirrors[*found];
  job.facts.set(fact::mirror_that_shows,
                m.name.known() ? Said(m.name.get()) : phrase::buccal_mirror(), Status::assumed);
}

void try_corner(Job& job, const Placed& view, const std::vector<physics::Tooth>& before) {
  const auto after = placing::hidden_farther_in(view.setting, view.pose);
  job.facts.derive(fact::hidden_farther_in,
                   after.empty()     ? phrase::none()
                   : after == before ? phrase::the_same()
                                     : phrase::teeth(after),
                   {&fact::azimuth, &fact::pupil_distance}, Status::assumed);
}

} // namespace norma::plan
