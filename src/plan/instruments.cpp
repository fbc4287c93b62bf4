#include <algorithm>
#include <cmath>

#include "physics/mirror.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

// Lamp -------------------------------------------------------------------------------------------

std::string kind_text(kit::LampKind kind) {
  switch (kind) {
  case kit::LampKind::ring: return "ring light";
  case kit::LampKind::point: return "point light";
  case kit::LampKind::clip_on: return "clip-on lamp";
  case kit::LampKind::built_in: return "lamp built into the lens";
  }
  return "lamp";
}

/// The kind of lamp a view asks for; nothing where any will do.
std::optional<kit::LampKind> wanted_kind(model::LampWanted wanted) {
  switch (wanted) {
  case model::LampWanted::any: return std::nullopt;
  case model::LampWanted::ring: return kit::LampKind::ring;
  case model::LampWanted::point: return kit::LampKind::point;
  case model::LampWanted::clip_on: return kit::LampKind::clip_on;
  case model::LampWanted::built_in: return kit::LampKind::built_in;
  }
  return std::nullopt;
}

/// A light beside the lens models; one around it, or in it, is even.
bool suits(const kit::Lamp& lamp, model::LampLook look) {
  if (look == model::LampLook::unsaid || !lamp.kind.known()) return true;
  const bool around =
      lamp.kind.get() == kit::LampKind::ring || lamp.kind.get() == kit::LampKind::built_in;
  return around == (look == model::LampLook::even);
}

void choose_lamp(Job& job) {
  if (job.view.lamp.broken()) {
    job.facts.set_broken(fact::lamp);
    return;
  }
  const auto wanted = wanted_kind(job.view.lamp.value_or({}).kind);
  const model::LampLook look = job.view.lamp.value_or({}).look;
  if (!wanted && job.kit->lamps.empty()) {
    job.facts.set_unknown(fact::lamp, "lamp of the kit");
    return;
  }
  const kit::Lamp* best = nullptr; // the first that will do; one that suits comes before it
  for (const kit::Lamp& lamp : job.kit->lamps) {
    if (wanted && !(lamp.kind.known() && lamp.kind.get() == *wanted)) continue;
    if (best == nullptr || (!suits(*best, look) && suits(lamp, look))) best = &lamp;
  }
  if (best != nullptr) {
    job.out.chosen.lamp = best;
    std::string name = best->name.value_or("");
    if (name.empty() && best->kind.known()) name = kind_text(best->kind.get());
    job.facts.set(fact::lamp, name, Status::measured);
    return;
  }
  job.facts.set_impossible<Said>(fact::lamp, kind_text(*wanted), {}, {});
}

// Retractors -------------------------------------------------------------------------------------

bool polished_metal(const kit::Retractor& r) {
  return r.material.known() && r.material.get() == kit::Material::metal && r.finish.known() &&
         r.finish.get() == kit::Finish::polished;
}

bool fits(const kit::Retractor& r, const model::Retractor& wanted) {
  const auto material = [](kit::Material m) {
    return m == kit::Material::metal ? "metal" : "plastic";
  };
  const auto finish = [](kit::Finish f) {
    return f == kit::Finish::polished  ? "polished"
           : f == kit::Finish::frosted ? "frosted"
                                       : "clear";
  };
  if (!wanted.material.empty() &&
      (!r.material.known() || material(r.material.get()) != wanted.material)) {
    return false;
  }
  if (!wanted.finish.empty() && (!r.finish.known() || finish(r.finish.get()) != wanted.finish)) {
    return false;
  }
  if (wanted.end.empty() || r.ends.empty()) return true;
  const kit::RetractorEnd end =
      wanted.end == "small end" ? kit::RetractorEnd::small : kit::RetractorEnd::large;
  return std::find(r.ends.begin(), r.ends.end(), end) != r.ends.end();
}

std::string wanted_text(const model::Retractor& r) {
  std::string out;
  for (const std::string& part : {r.finish, r.material}) {
    if (!part.empty()) out += part + " ";
  }
  out += "retractor";
  if (!r.end.empty()) out += " with a " + r.end;
  return out;
}

/// The first of the kit that fits and is not used up; one that does not glare comes first.
const kit::Retractor* choose(const Job& job, const model::Retractor& wanted,
                             const kit::Retractor* taken) {
  const kit::Retractor* best = nullptr;
  for (const kit::Retractor& r : job.kit->retractors) {
    if (!fits(r, wanted)) continue;
    if (taken == &r && r.pieces.known() && r.pieces.get() < 2) continue;
    if (best == nullptr || (polished_metal(*best) && !polished_metal(r))) best = &r;
  }
  return best;
}

void choose_retractor(Job& job, const text::Sourced<model::Retractor>& asked,
                      const FactDef<Said>& def, const kit::Retractor*& chosen,
                      const kit::Retractor* taken) {
  if (asked.broken()) {
    job.facts.set_broken(def);
    return;
  }
  if (asked.absent()) return;
  const model::Retractor& wanted = asked.get();
  if (wanted.mirror_takes_place) {
    job.facts.set(def, "the mirror takes its place", Status::asked);
    return;
  }
  if (wanted.none) {
    job.facts.set(def, "none", Status::asked);
    return;
  }
  if (job.kit == nullptr) {
    job.facts.set_unknown(def, "a kit");
    return;
  }
  chosen = choose(job, wanted, taken);
  if (chosen == nullptr) {
    const bool second = taken != nullptr && fits(*taken, wanted);
    job.facts.set_impossible<Said>(def, (second ? "second " : "") + wanted_text(wanted), {},
                                          {});
    return;
  }
  job.facts.set(def, chosen->name.value_or("retractor"), Status::measured);
}

void set_finish(Job& job) {
  std::string text;
  bool open = false;
  for (const kit::Retractor* r : {job.out.chosen.right_retractor, job.out.chosen.left_retractor}) {
    if (r == nullptr) continue;
    if (!r->finish.known() || !r->material.known()) {
      open = true;
      continue;
    }
    const std::string one = std::string(r->finish.get() == kit::Finish::polished  ? "polished"
                                        : r->finish.get() == kit::Finish::frosted ? "frosted"
                                                                                  : "clear") +
                            (r->material.get() == kit::Material::metal ? " metal" : " plastic");
    if (text.find(one) == std::string::npos) text += (text.empty() ? "" : ", ") + one;
  }
  if (open) {
    job.facts.set_unknown(fact::retractor_finish, "finish and material of the retractors");
  } else if (!text.empty()) {
    job.facts.set(fact::retractor_finish, text, Status::measured,
                  {&fact::right_retractor, &fact::left_retractor});
  }
}

// Mirror -----------------------------------------------------------------------------------------

std::string_view use_text(model::MirrorUse use) {
  switch (use) {
  case model::MirrorUse::occlusal: return "occlusal mirror";
  case model::MirrorUse::buccal: return "buccal mirror";
  case model::MirrorUse::lingual: return "lingual mirror";
  case model::MirrorUse::disc: return "disc mirror";
  }
  return "mirror";
}

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
  const model::View& view = job.view;
  if (view.mirror->use != model::MirrorUse::occlusal || !job.axes || !view.must_show.known())
    return;
  if (!job.facts.needs(fact::mirror_width_needed, {&fact::mirror_angle, &fact::pupil_distance}))
    return;
  Said missing;
  const auto points = points_of(job, view.must_show.get(), missing);
  if (!points) {
    job.facts.set_unknown(fact::mirror_width_needed, missing);
    return;
  }
  std::vector<physics::ArchPoint> arch;
  Length front = points->front().at.y;
  Length back = front;
  for (const physics::SurfacePoint& p : *points) {
    arch.push_back({p.at.x, p.at.y});
    front = std::min(front, p.at.y);
    back = std::max(back, p.at.y);
  }
  const physics::MirrorNeed need =
      physics::mirror_needed(arch, back + job.limit(physics::defaults::mirror_gap).value * mm,
                             *job.facts.get(fact::mirror_angle),
                             *job.facts.get(fact::pupil_distance), 0.5 * (front + back));
  const std::vector<const FactRow*> from{&fact::mirror_angle, &fact::pupil_distance};
  job.facts.derive(fact::mirror_width_needed, need.width, from, Status::assumed);
  job.facts.derive(fact::mirror_length_needed, need.length, from, Status::assumed);
}

/// The smallest mirror of the asked kind that is wide enough; else the widest.
const kit::Mirror* choose_mirror(const Job& job) {
  const model::Mirror& wanted = job.view.mirror.get();
  const auto needed = job.facts.get(fact::mirror_width_needed);
  constexpr double near = 2.0; // mm: discs are sold in steps of two (ISO 9873)
  const kit::Mirror* best = nullptr;
  const auto width = [](const kit::Mirror& m) { return m.width.value_or(0.0 * mm); };
  for (const kit::Mirror& m : job.kit->mirrors) {
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
  if (asked.broken()) {
    job.facts.set_broken(fact::mirror);
    return;
  }
  set_needed_size(job);
  if (job.kit == nullptr) {
    job.facts.set_unknown(fact::mirror, "a kit");
    return;
  }
  const kit::Mirror* mirror = choose_mirror(job);
  if (mirror == nullptr) {
    std::string text(use_text(asked->use));
    if (asked->disc) text += " of " + physics::to_text(*asked->disc);
    job.facts.set_impossible<Said>(fact::mirror, std::move(text), {}, {});
    return;
  }
  job.out.chosen.mirror = mirror;
  job.facts.set(fact::mirror, mirror->name.value_or(std::string(use_text(asked->use))),
                Status::measured);
}

/// Whose side the mirror is said to be on, and the teeth that it is to show.
void set_sides(Job& job) {
  const model::View& view = job.view;
  if (!view.mirror.known() || !view.mirror->side) return;
  job.facts.set(fact::mirror_side, std::string(model::to_text(*view.mirror->side)), Status::asked);
  if (!view.must_show.known() || view.must_show->empty()) return;
  const model::Faces& faces = view.must_show.get();
  const auto right = [](const model::NamedFace& f) { return f.tooth.is_right(); };
  if (std::all_of(faces.begin(), faces.end(), right)) {
    job.facts.set(fact::teeth_side, std::string("right"), Status::asked);
  } else if (std::none_of(faces.begin(), faces.end(), right)) {
    job.facts.set(fact::teeth_side, std::string("left"), Status::asked);
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
  if (job.kit == nullptr) {
    job.facts.set_unknown(fact::lamp, "a kit");
    return;
  }
  choose_lamp(job);
  set_finish(job);
}

} // namespace norma::plan
