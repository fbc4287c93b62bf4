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
  for (const kit::Mirror& m : job.kit()->mirrors) {
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

/// Of each tooth that must show the least share that is seen of any.
Said seen_of_each(double least) {
  constexpr double whole = 0.995; // as it is printed
  return least >= whole
             ? phrase::all_of_each()
             : phrase::at_least_of_each(diag::Measure{physics::Kind::share, least, false});
}

/// Another angle of the camera, from which all are sharp, too, where there is one.
void try_azimuth(Job& job, const Placed& view) {
  const Recording one(job.facts);
  job.facts.use(view.sharp_read);
  const auto other = placing::azimuth_that_shows(view.setting, view.pose);
  if (!other) return;
  job.facts.find(fact::turned_limit);
  job.facts.put(fact::azimuth_that_shows, other->azimuth);
  job.facts.put(fact::seen_from_azimuth, seen_of_each(other->least));
  if (!other->sharp) job.facts.put(fact::azimuth_not_sharp, phrase::not_all_sharp());
}

} // namespace

void try_mirrors(Job& job, const Placed& view) {
  const Recording one(job.facts);
  if (!view.setting.mirror) return;
  const auto larger = placing::larger_mirror_that_shows(view.setting, view.pose);
  if (!larger) return;
  if (larger->longer) {
    job.facts.put(fact::mirror_length_that_shows, larger->sheet.length);
    return;
  }
  job.facts.put(fact::mirror_width_that_shows, larger->pose.mirror->width);
  if (view.setting.mirror->use != placing::MirrorUse::over_arch) return;
  if (const auto room = placing::room_at_corners(larger->pose);
      room && room->mirror > room->between)
    job.facts.put(fact::wider_mirror_without_room, phrase::corners_of_mouth());
}

void try_remedies(Job& job, const Placed& view) {
  const Recording one(job.facts);
  const Setting& setting = view.setting;
  const Pose& pose = view.pose;
  if (setting.mirror && setting.mirror->use == placing::MirrorUse::over_arch) {
    const auto angle = placing::nearest_good_angle(setting, pose, [&](const Pose& other) {
      return placing::look_that_is(placing::shows_all, setting, other).has_value();
    });
    if (angle) {
      job.facts.put(fact::mirror_angle_that_shows, *angle);
      job.facts.put(fact::seen_with_mirror_angle,
                    seen_of_each(placing::least_seen(
                        placing::look_at(setting, placing::opened_otherwise(setting, pose, *angle),
                                         nullptr, physics::fine_pieces))));
    }
  }
  try_azimuth(job, view);
  const auto least = placing::least_seen_with_firm_pull(setting, pose);
  if (!least) return;
  read_firm_pull(job);
  job.facts.put(fact::seen_with_firm_pull, seen_of_each(*least));
}

void try_smaller_mirror(Job& job, const Placed& view) {
  const Recording one(job.facts);
  if (!view.setting.mirror || view.setting.mirror->use != placing::MirrorUse::over_arch) return;
  const auto mirrors = mirrors_of(job, kit::MirrorKind::occlusal, job.kit()->mirrors.size());
  const auto narrower = placing::narrower_mirror_that_shows(
      view.setting, view.pose, sheets_of(mirrors, job.view.mirror.get()), most_tried);
  if (!narrower) return;
  const kit::Mirror& best = *mirrors[*narrower];
  job.facts.put(fact::smaller_mirror, name_or(best.name, phrase::narrower_mirror()));
}

void try_without_mirror(Job& job, const Placed& view) {
  const Recording one(job.facts);
  if (!view.setting.mirror || view.setting.mirror->use != placing::MirrorUse::in_cheek) return;
  const auto azimuth = placing::azimuth_without_mirror(view.setting, view.pose);
  if (!azimuth) return;
  read_firm_pull(job);
  job.limit(fact::squarely_limit, physics::defaults::squarely);
  job.limit(fact::least_in_mirror, physics::defaults::mirror_share);
  job.facts.find(fact::turned_limit);
  job.facts.put(fact::direct_azimuth, *azimuth);
}

void try_side_mirror(Job& job, const Placed& view) {
  const Recording one(job.facts);
  if (!job.has_kit()) return;
  const auto mirrors = mirrors_of(job, kit::MirrorKind::buccal, most_tried);
  const auto found =
      placing::cheek_mirror_instead(view.setting, view.pose, sheets_of(mirrors, model::Mirror{}));
  if (!found) return;
  if (const auto& corner = view.setting.corners.by_mirror)
    job.facts.put_of_kit(fact::corner_by_mirror, corner->side);
  job.facts.find(fact::corner_by_mirror);
  job.limit(fact::mirror_gap, physics::defaults::mirror_gap);
  job.limit(fact::least_in_mirror, physics::defaults::mirror_share);
  job.facts.use(view.lamp_read);
  job.facts.put(fact::mirror_that_shows,
                name_or(mirrors[found->sheet]->name, phrase::buccal_mirror()));
  job.facts.put(fact::seen_in_that_mirror, seen_of_each(found->least));
}

void try_corner(Job& job, const std::vector<physics::Tooth>& before,
                const std::vector<Shown>& farther_in) {
  const Recording one(job.facts);
  const auto after = teeth_of(farther_in, placing::stands_behind);
  job.facts.put(fact::hidden_farther_in, after.empty()     ? phrase::none()
                                         : after == before ? phrase::the_same()
                                                           : phrase::teeth(after));
}

} // namespace norma::plan
