// What would show what a view does not show, found by trying it in the model.
#include <algorithm>

#include "plan/scene/scene.hpp"

namespace norma::plan {
namespace {

constexpr Angle widest_azimuth = 90.0 * degree;
/// By how much the corner of the mouth is moved to see what hangs on it.
constexpr Length corner_moved = 5.0 * mm;

/// The nearest angle of the mirror at which nothing is hidden and nothing ends beside it. Tried in
/// the model.
void try_mirror_angles(Job& job, const Setting& setting) {
  if (job.facts.get(fact::mirror_angle_that_shows)) return;
  const auto angle = nearest_good_angle(
      job, setting, [](const Setting& other) { return shows_all(look_at(other)); });
  if (angle)
    job.facts.derive(fact::mirror_angle_that_shows, *angle, {&fact::mirror_angle}, Status::assumed);
}

} // namespace

void try_mirrors(Job& job, const Setting& setting) {
  const model::MirrorUse use = job.view.mirror->use;
  const kit::Mirror* own = job.out.chosen.mirror;
  // Beside the tongue a wider one has another place, or none: that is searched where it is placed.
  if (use == model::MirrorUse::lingual || own == nullptr) return;
  const bool disc = use == model::MirrorUse::disc;
  const auto good = [&](const std::optional<Setting>& other) {
    if (!other) return false;
    const std::vector<Shown> shown = look_at(*other);
    // Round ones have another place, where something else may hide what must show.
    return disc ? shows_all(shown) : std::none_of(shown.begin(), shown.end(), cut_off);
  };
  const std::vector<const FactRow*> from{&fact::mirror_angle, &fact::pupil_distance};
  const Length in_mouth = setting.mirror->width; // of the end that goes in
  constexpr Length widest_disc = 50.0 * mm;      // larger ones do not go in
  for (Length wider = 2.0 * mm; wider <= 60.0 * mm; wider += 2.0 * mm) {
    if (disc && in_mouth + wider > widest_disc) return;
    const auto other = with_mirror(job, setting, scaled(*own, (in_mouth + wider) / in_mouth));
    if (!good(other)) continue;
    job.facts.derive(fact::mirror_width_that_shows, other->mirror->width, from, Status::assumed);
    if (const auto room = room_at_corners(*other);
        use == model::MirrorUse::occlusal && room && room->mirror > room->between)
      job.facts.set(fact::wider_mirror_without_room, phrase::corners_of_mouth(), Status::assumed);
    return;
  }
  if (disc) return; // it has grown all round
  for (Length longer = 2.0 * mm; longer <= 100.0 * mm; longer += 2.0 * mm) {
    kit::Mirror other = *own;
    const bool two_ends =
        own->outline.known() && own->outline.get() == kit::MirrorOutline::two_ends;
    const Length length = own->length.get() + longer * (two_ends ? 2.0 : 1.0);
    other.length = {length, own->length.span()};
    const auto there = with_mirror(job, setting, other);
    if (!good(there)) continue;
    job.facts.derive(fact::mirror_length_that_shows, length, from, Status::assumed);
    return;
  }
}

void try_remedies(Job& job, const Setting& setting) {
  if (setting.mirror && job.facts.get(fact::mirror_angle)) try_mirror_angles(job, setting);
  const std::vector<const FactRow*> from{&fact::azimuth, &fact::pupil_distance};
  const auto none_hidden = [](const std::vector<Shown>& shown) {
    return std::none_of(shown.begin(), shown.end(), stands_behind);
  };
  const Angle limit = *job.facts.get(fact::turned_limit);
  const double side = setting.azimuth < Angle{} ? -1.0 : 1.0;
  if (!setting.mirror && abs(setting.azimuth) >= aside) {
    const Angle given = abs(setting.azimuth);
    std::optional<Angle> seen_only;
    for (Angle off = angle_step; off <= widest_azimuth; off += angle_step) {
      for (const Angle a : {given + off, given - off}) {
        if (a < aside || a > widest_azimuth || job.facts.get(fact::azimuth_that_shows)) continue;
        Setting other = setting;
        other.azimuth = side * a;
        other.axes = physics::camera_axes(other.azimuth, setting.elevation, setting.roll);
        const std::vector<Shown> shown = look_at(other);
        // What shows one tooth must not turn another one away.
        const bool round = std::any_of(shown.begin(), shown.end(),
                                       [&](const Shown& x) { return x.obliquity > limit; });
        if (round || !none_hidden(shown)) continue;
        if (sharp_from(job, other.axes)) {
          job.facts.derive(fact::azimuth_that_shows, a, from, Status::assumed);
        } else if (!seen_only) {
          seen_only = a;
        }
      }
    }
    if (seen_only && !job.facts.get(fact::azimuth_that_shows)) {
      job.facts.derive(fact::azimuth_that_shows, *seen_only, from, Status::assumed);
      job.facts.derive(fact::azimuth_not_sharp, phrase::not_all_sharp(), from, Status::assumed);
    }
  }
  Setting firm = setting;
  model::Retractor pull;
  pull.tension = "firm";
  if (firm.mouth.right) firm.mouth.right = corner_of(job, pull).corner;
  if (firm.mouth.left) firm.mouth.left = corner_of(job, pull).corner;
  if (none_hidden(look_at(firm)))
    job.facts.set(fact::seen_with_firm_pull, phrase::all_are_seen(), Status::assumed);
}

void try_smaller_mirror(Job& job, const Setting& setting) {
  const kit::Mirror* chosen = job.out.chosen.mirror;
  if (chosen == nullptr || !chosen->width.known() || !setting.mirror ||
      job.view.mirror->use != model::MirrorUse::occlusal)
    return;
  const kit::Mirror* best = nullptr;
  int most = 4; // mirrors that are tried, whatever the kit holds
  for (const kit::Mirror& m : job.kit->mirrors) {
    const bool same = m.kind.known() && m.kind.get() == kit::MirrorKind::occlusal;
    if (!same || !m.width.known() || !m.length.known()) continue;
    if (m.width.get() >= (best == nullptr ? chosen : best)->width.get() || most-- == 0) continue;
    Setting other = setting;
    physics::PlaneMirror outline;
    set_outline(outline, job.view.mirror.get(), m);
    other.mirror =
        arch_mirror(job, setting.mouth.of_upper, *job.facts.get(fact::mirror_angle), outline);
    if (shows_all(look_at(other))) best = &m;
  }
  if (best != nullptr)
    job.facts.set(fact::smaller_mirror,
                  best->name.known() ? Said(best->name.get()) : phrase::narrower_mirror(),
                  Status::assumed, {&fact::mirror, &fact::mirror_angle});
}

void try_without_mirror(Job& job, const Setting& setting) {
  if (!setting.mirror || job.view.mirror->use != model::MirrorUse::buccal) return;
  constexpr Angle nearest = 30.0 * degree;
  constexpr Angle farthest = 75.0 * degree;
  const bool right = *job.facts.get(fact::azimuth) > Angle{};
  const Angle limit = std::min(*job.facts.get(fact::turned_limit),
                               job.limit(physics::defaults::squarely).value() * degree);
  model::Retractor pull;
  pull.tension = "firm";
  for (Angle a = nearest; a <= farthest; a += angle_step) {
    Setting other = setting;
    other.mirror.reset();
    (right ? other.mouth.right : other.mouth.left) = corner_of(job, pull).corner;
    other.azimuth = right ? a : -a;
    other.axes = physics::camera_axes(other.azimuth, Angle{}, Angle{});
    const std::vector<Shown> shown = look_at(other);
    const bool all = std::none_of(shown.begin(), shown.end(), [&](const Shown& s) {
      return stands_behind(s) || s.obliquity > limit || s.framed < 1.0;
    });
    if (!all) continue;
    job.facts.derive(fact::direct_azimuth, a, {&fact::azimuth}, Status::assumed);
    return;
  }
}

void try_corner(Job& job, Setting setting, const std::vector<physics::Tooth>& before) {
  for (auto* corner : {&setting.mouth.right, &setting.mouth.left}) {
    if (*corner)
      *corner =
          physics::MouthCorner{(*corner)->side - corner_moved, (*corner)->back - corner_moved};
  }
  const auto after = teeth_of(look_at(setting), stands_behind);
  job.facts.derive(fact::hidden_farther_in,
                   after.empty()     ? phrase::none()
                   : after == before ? phrase::the_same()
                                     : phrase::teeth(after),
                   {&fact::azimuth, &fact::pupil_distance}, Status::assumed);
}

} // namespace norma::plan
