#include <algorithm>
#include <array>
#include <cmath>

#include "physics/mirror.hpp"
#include "placing/surfaces.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

// Lamp -------------------------------------------------------------------------------------------

/// The kind of lamp a view asks for; nothing where any will do.
std::optional<kit::LampKind> wanted_kind(model::LampWanted wanted) {
  switch (wanted) {
  case model::LampWanted::any: return std::nullopt;
  case model::LampWanted::ring: return kit::LampKind::ring;
  case model::LampWanted::point: return kit::LampKind::point;
  case model::LampWanted::clip_on: return kit::LampKind::clip_on;
  case model::LampWanted::built_in: return kit::LampKind::built_in;
  case model::LampWanted::twin: return kit::LampKind::twin;
  }
  return std::nullopt;
}

/// A light beside the lens models; one around it, or in it, is even; of two heads, one on each
/// side, both can be said (common practice).
bool suits(const kit::Lamp& lamp, model::LampLook look) {
  if (look == model::LampLook::unsaid || !lamp.kind.known()) return true;
  if (lamp.kind.get() == kit::LampKind::twin) return true;
  const bool around =
      lamp.kind.get() == kit::LampKind::ring || lamp.kind.get() == kit::LampKind::built_in;
  return around == (look == model::LampLook::even);
}

void choose_lamp(Job& job) {
  if (job.view.lamp.broken()) return job.facts.put_broken(fact::lamp);
  const Recording one(job.facts);
  const std::vector<kit::Lamp>& lamps = job.kit()->lamps;
  const auto wanted = wanted_kind(job.view.lamp.value_or({}).kind);
  const model::LampLook look = job.view.lamp.value_or({}).look;
  if (!wanted && lamps.empty()) return job.facts.put_unknown(fact::lamp, missing::lamp());
  const kit::Lamp* best = nullptr; // the first that will do; one that suits comes before it
  for (const kit::Lamp& lamp : lamps) {
    if (wanted && !(lamp.kind.known() && lamp.kind.get() == *wanted)) continue;
    if (best == nullptr || (!suits(*best, look) && suits(lamp, look))) best = &lamp;
  }
  if (best == nullptr) return job.facts.put_impossible(fact::lamp, term_of(*wanted));
  job.out.chosen.lamp = best;
  job.facts.put_of_kit(
      fact::lamp, name_or(best->name, best->kind.known() ? term_of(best->kind.get()) : Said()));
}

// Retractors -------------------------------------------------------------------------------------

bool polished_metal(const kit::Retractor& r) {
  return r.material.known() && r.material.get() == kit::Material::metal && r.finish.known() &&
         r.finish.get() == kit::Finish::polished;
}

/// Can one piece hold both sides as they are asked for? It pulls both alike.
bool both_alike(const model::View& view) {
  if (!view.right_retractor.known() || !view.left_retractor.known()) return false;
  const model::Retractor& right = view.right_retractor.get();
  const model::Retractor& left = view.left_retractor.get();
  return !right.none && !left.none && !right.mirror_takes_place && !left.mirror_takes_place &&
         right.material == left.material && right.finish == left.finish && right.end == left.end &&
         right.tension == left.tension && right.pull == left.pull && right.held_by == left.held_by;
}

// What a kit has, as a protocol says it.
model::RetractorMaterial as_said(kit::Material m) {
  return m == kit::Material::metal ? model::RetractorMaterial::metal
                                   : model::RetractorMaterial::plastic;
}
model::RetractorFinish as_said(kit::Finish f) {
  switch (f) {
  case kit::Finish::polished: return model::RetractorFinish::polished;
  case kit::Finish::frosted: return model::RetractorFinish::frosted;
  case kit::Finish::clear: return model::RetractorFinish::clear;
  }
  return model::RetractorFinish::clear;
}

bool fits(const kit::Retractor& r, const model::Retractor& wanted) {
  const auto has = [](const auto& of_kit, auto said) {
    return of_kit.known() && as_said(of_kit.get()) == said;
  };
  if (wanted.material && !has(r.material, *wanted.material)) return false;
  if (wanted.finish && !has(r.finish, *wanted.finish)) return false;
  if (!wanted.end || r.ends.empty()) return true;
  const kit::RetractorEnd end =
      wanted.end == model::End::small_end ? kit::RetractorEnd::small : kit::RetractorEnd::large;
  return std::find(r.ends.begin(), r.ends.end(), end) != r.ends.end();
}

Said wanted_piece(const model::Retractor& r) {
  Said out = phrase::retractor();
  if (r.material) out = phrase::such(term_of(*r.material), std::move(out));
  if (r.finish) out = phrase::such(term_of(*r.finish), std::move(out));
  return r.end ? phrase::with_end(std::move(out), term_of(*r.end)) : out;
}

/// What counts against a piece that fits, the worst first: a hand where none is to hold it; glare;
/// a lone piece of one side where both are to be held.
std::array<int, 3> against(const kit::Retractor& r, const model::Retractor& wanted, bool both) {
  const bool no_hand = wanted.held_by == model::Person::itself;
  const int hand = !no_hand || r.holds_itself() ? 0 : r.held.known() ? 2 : 1;
  const bool lone = r.pieces.known() && r.pieces.get() < 2 && !r.holds_both_sides();
  return {hand, polished_metal(r) ? 1 : 0, both && lone ? 1 : 0};
}

/// The first of the kit that fits and is not used up, of those that least counts against.
const kit::Retractor* choose(const Job& job, const model::Retractor& wanted,
                             const kit::Retractor* taken) {
  const bool both = both_alike(job.view);
  if (both && taken != nullptr && taken->holds_both_sides()) return taken;
  const kit::Retractor* best = nullptr;
  for (const kit::Retractor& r : job.kit()->retractors) {
    if (!fits(r, wanted)) continue;
    // Where one side is held already, or is held otherwise, a piece for both is of no use.
    if (r.holds_both_sides() && (!both || taken != nullptr)) continue;
    if (taken == &r && r.pieces.known() && r.pieces.get() < 2) continue;
    if (best == nullptr || against(r, wanted, both) < against(*best, wanted, both)) best = &r;
  }
  return best;
}

void choose_retractor(Job& job, const text::Sourced<model::Retractor>& asked,
                      const FactDef<Said>& def, const kit::Retractor*& chosen,
                      const kit::Retractor* taken) {
  if (asked.broken()) return job.facts.put_broken(def);
  if (asked.absent()) return;
  const Recording one(job.facts);
  const model::Retractor& wanted = asked.get();
  if (wanted.mirror_takes_place) return job.facts.put(def, phrase::mirror_takes_its_place());
  if (wanted.none) return job.facts.put(def, phrase::none());
  if (!job.has_kit()) return job.facts.put_unknown(def, missing::kit());
  chosen = choose(job, wanted, taken);
  if (chosen != nullptr)
    return job.facts.put_of_kit(def, name_or(chosen->name, phrase::retractor()));
  const bool second = taken != nullptr && fits(*taken, wanted);
  const std::vector<kit::Retractor>& all = job.kit()->retractors;
  const bool only_both = std::any_of(all.begin(), all.end(), [&](const kit::Retractor& r) {
    return r.holds_both_sides() && fits(r, wanted);
  });
  job.facts.put_impossible(def, second      ? phrase::second_piece(wanted_piece(wanted))
                                : only_both ? phrase::for_one_side(wanted_piece(wanted))
                                            : wanted_piece(wanted));
}

void set_finish(Job& job) {
  const Recording one(job.facts);
  List all;
  bool open = false;
  for (const kit::Retractor* r : {job.right_retractor(), job.left_retractor()}) {
    if (r == nullptr) continue;
    if (!r->finish.known() || !r->material.known()) {
      open = true;
      continue;
    }
    const diag::Value finish = phrase::such(term_of(r->finish.get()), term_of(r->material.get()));
    if (std::find(all.items.begin(), all.items.end(), finish) == all.items.end())
      all.items.push_back(finish);
  }
  if (open) {
    job.facts.put_unknown(fact::retractor_finish, missing::finish_of_retractors());
  } else if (!all.items.empty()) {
    job.facts.put(fact::retractor_finish, all);
  }
}

// Mirror -----------------------------------------------------------------------------------------

bool same_use(kit::MirrorKind kind, model::MirrorUse use) {
  switch (use) {
  case model::MirrorUse::occlusal: return kind == kit::MirrorKind::occlusal;
  case model::MirrorUse::buccal: return kind == kit::MirrorKind::buccal;
  case model::MirrorUse::lingual: return kind == kit::MirrorKind::lingual;
  case model::MirrorUse::disc: return kind == kit::MirrorKind::disc;
  }
  return false;
}

/// Size that an arch mirror must have, by straight rays to the pupil.
void set_needed_size(Job& job) {
  const Recording one(job.facts);
  const model::View& view = job.view;
  if (view.mirror->use != model::MirrorUse::occlusal || !job.axes() || !view.must_show.known())
    return;
  if (!job.facts.needs(fact::mirror_width_needed, {&fact::mirror_angle, &fact::pupil_distance}))
    return;
  const NamedSurfaces surfaces = surfaces_of(job, view.must_show.get());
  if (surfaces.placed.empty()) {
    job.facts.put_unknown(fact::mirror_width_needed,
                          surfaces.why_none(missing::tooth_of_those_named));
    return;
  }
  const physics::MouthState mouth = at_rest(job);
  std::vector<physics::ArchPoint> arch;
  for (const physics::Wanted& w : surfaces.placed) {
    for (const physics::SurfacePoint& p : placing::points_of(mouth, w))
      arch.push_back({p.at.x, p.at.y});
  }
  Length front = arch.front().back;
  Length back = front;
  for (const physics::ArchPoint& p : arch) {
    front = std::min(front, p.back);
    back = std::max(back, p.back);
  }
  const physics::MirrorNeed need = physics::mirror_needed(
      arch, back + job.limit(fact::mirror_gap, physics::defaults::mirror_gap),
      *job.facts.get(fact::mirror_angle), *job.facts.get(fact::pupil_distance),
      0.5 * (front + back));
  job.facts.put(fact::mirror_width_needed, need.width);
  job.facts.put(fact::mirror_length_needed, need.length);
}

/// The smallest mirror of the asked kind that is wide enough; else the widest.
const kit::Mirror* choose_mirror(const Job& job) {
  const model::Mirror& wanted = job.view.mirror.get();
  const auto needed = job.facts.get(fact::mirror_width_needed);
  constexpr double near = 2.0; // mm: discs are sold in steps of two (ISO 9873)
  const kit::Mirror* best = nullptr;
  const auto width = [](const kit::Mirror& m) { return m.width.value_or(0.0 * mm); };
  for (const kit::Mirror& m : job.kit()->mirrors) {
    if (!m.kind.known() || !same_use(m.kind.get(), wanted.use)) continue;
    if (wanted.disc && abs(width(m) - *wanted.disc) > near * mm) continue;
    if (best == nullptr) {
      best = &m;
      continue;
    }
    const Length target = needed.value_or(0.0 * mm);
    const bool best_does = width(*best) >= target;
    const bool this_does = width(m) >= target;
    if (this_does ? (!best_does || width(m) < width(*best))
                  : (!best_does && width(m) > width(*best))) {
      best = &m;
    }
  }
  return best;
}

void plan_mirror(Job& job) {
  const text::Sourced<model::Mirror>& asked = job.view.mirror;
  if (asked.absent()) return;
  if (asked.broken()) return job.facts.put_broken(fact::mirror);
  set_needed_size(job);
  const Recording one(job.facts);
  if (!job.has_kit()) return job.facts.put_unknown(fact::mirror, missing::kit());
  job.out.chosen.mirror = choose_mirror(job);
  const Said kind = term_of(asked->use);
  if (const kit::Mirror* mirror = job.out.chosen.mirror)
    return job.facts.put_of_kit(fact::mirror, name_or(mirror->name, kind));
  job.facts.put_impossible(fact::mirror, asked->disc ? phrase::of_size(kind, *asked->disc) : kind);
}

/// Whose side the mirror is said to be on, and the teeth that it is to show.
void set_sides(Job& job) {
  const model::View& view = job.view;
  if (!view.mirror.known() || !view.mirror->side) return;
  job.facts.put(fact::mirror_side, *view.mirror->side);
  if (!view.must_show.known() || view.must_show->empty()) return;
  const model::Faces& faces = view.must_show.get();
  const auto right = [](const model::NamedFace& f) { return f.tooth.is_right(); };
  if (std::all_of(faces.begin(), faces.end(), right)) {
    job.facts.put(fact::teeth_side, model::Side::right);
  } else if (std::none_of(faces.begin(), faces.end(), right)) {
    job.facts.put(fact::teeth_side, model::Side::left);
  }
}

} // namespace

void plan_instruments(Job& job) {
  set_sides(job);
  Chosen& chosen = job.out.chosen;
  choose_retractor(job, job.view.right_retractor, fact::right_retractor, chosen.right_retractor,
                   nullptr);
  choose_retractor(job, job.view.left_retractor, fact::left_retractor, chosen.left_retractor,
                   chosen.right_retractor);
  plan_mirror(job);
  if (!job.has_kit()) return job.facts.put_unknown(fact::lamp, missing::kit());
  choose_lamp(job);
  set_finish(job);
}

} // namespace norma::plan
