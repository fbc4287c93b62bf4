#include <algorithm>

#include "physics/optics.hpp"
#include "placing/surfaces.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

using physics::Point;

/// The place the protocol centres on: the middle of the biting edges of the teeth it names.
std::optional<Point> named_aim(Job& job) {
  if (!job.view.centre.known()) return std::nullopt;
  const model::Aim aim = job.view.centre.get();
  if (aim.thing) return std::nullopt;
  const physics::Crown* first = crown_at(job, aim.first);
  const physics::Crown* second = crown_at(job, aim.second);
  if (first == nullptr || second == nullptr) return std::nullopt;
  job.facts.set(fact::aim, place_of(aim), Status::asked);
  return placing::middle_of(at_rest(job), placing::TeethPair{first->tooth, second->tooth});
}

/// Level unless the teeth fit upright only.
void choose_hold(Job& job) {
  const auto width = job.facts.get(fact::field_width);
  const auto height = job.facts.get(fact::field_height);
  const auto need_width = job.facts.get(fact::needed_width);
  const auto need_height = job.facts.get(fact::needed_height);
  bool upright = job.view.camera_held.known() && job.view.camera_held.get() == CameraHeld::upright;
  if (job.view.camera_held.absent() && width && height && need_width && need_height) {
    const bool fits_level = *need_width <= *width && *need_height <= *height;
    const bool fits_upright = *need_width <= *height && *need_height <= *width;
    upright = !fits_level && fits_upright;
  }
  job.facts.set(fact::camera_held, upright ? CameraHeld::upright : CameraHeld::level,
                Status::asked);
  if (!width || !height) return;
  if (upright && *width > *height) { // not turned yet
    const std::vector<const FactRow*> from{&fact::ratio, &fact::sensor, &fact::camera_held};
    job.facts.derive(fact::field_width, *height, from);
    job.facts.derive(fact::field_height, *width, from);
  }
}

} // namespace

namespace {

/// What else lies in the frame is not modelled; fingers, saliva and the like nobody can foresee.
void open_not_shown(Job& job) {
  if (!job.view.must_not_show.known()) return;
  List things;
  for (const model::Unwanted thing : job.view.must_not_show.get()) {
    switch (thing) {
    case model::Unwanted::lips:
    case model::Unwanted::cheeks:
    case model::Unwanted::retractors:
    case model::Unwanted::mirror_edge:
    case model::Unwanted::tongue:
    case model::Unwanted::nose: things.items.emplace_back(term_of(thing)); break;
    default: break;
    }
  }
  if (!things.items.empty())
    job.out.open.push_back({question::picture_free(things), missing::model_of_the_rest()});
}

} // namespace

void plan_framing(Job& job) {
  open_not_shown(job);
  const text::Sourced<model::Faces>& shown = job.view.must_show;
  const auto unknown = [&](const Said& missing) {
    job.facts.set_unknown(fact::needed_width, missing);
    job.facts.set_unknown(fact::needed_height, missing);
  };
  choose_hold(job);
  if (job.view.centre.known() && job.view.centre->thing) {
    job.facts.set(fact::aim, place_of(job.view.centre.get()), Status::asked);
    return unknown(missing::where_lies(the(*job.view.centre->thing)));
  }
  if (job.view.things_shown.known()) {
    return unknown(missing::size_of(the(job.view.things_shown->front())));
  }
  if (shown.absent()) return unknown(missing::what_must_show());
  if (shown.broken() || job.view.centre.broken()) {
    job.facts.set_broken(fact::needed_width);
    job.facts.set_broken(fact::needed_height);
    return;
  }
  if (!job.axes) {
    const Fact* azimuth = job.facts.find(fact::azimuth);
    if (azimuth != nullptr && azimuth->state == State::broken) {
      job.facts.set_broken(fact::needed_width);
      job.facts.set_broken(fact::needed_height);
      return;
    }
    return unknown(azimuth != nullptr && !azimuth->why.empty() ? azimuth->why
                                                               : missing::camera_looks_from());
  }
  Said missing;
  const auto surfaces = surfaces_of(job, shown.get(), missing);
  if (!surfaces) return unknown(missing);
  if (surfaces->empty()) return unknown(missing::tooth_of_those_named());

  const physics::MouthState mouth = at_rest(job);
  std::optional<Point> aim = named_aim(job);
  if (!aim) {
    aim = placing::middle_of(mouth, *surfaces, *job.axes);
    job.facts.set(fact::aim, phrase::on_middle_of_shown(), Status::asked);
  }
  job.aim = aim;
  const auto extent =
      placing::extent_of(mouth, *surfaces, *aim, *job.axes, job.facts.get(fact::pupil_distance));
  std::vector<const FactRow*> from{&fact::aim, &fact::azimuth, &fact::elevation};
  if (job.facts.get(fact::pupil_distance)) from.push_back(&fact::pupil_distance);
  job.facts.derive(fact::needed_width, 2.0 * std::max(extent->left, extent->right), from,
                   Status::assumed);
  job.facts.derive(fact::needed_height, 2.0 * std::max(extent->up, extent->down), from,
                   Status::assumed);
  choose_hold(job);
  if (job.facts.needs(fact::spare_width, {&fact::field_width, &fact::needed_width})) {
    job.facts.derive(fact::spare_width,
                     *job.facts.get(fact::field_width) - *job.facts.get(fact::needed_width),
                     {&fact::field_width, &fact::needed_width});
  }
  if (job.facts.needs(fact::spare_height, {&fact::field_height, &fact::needed_height})) {
    job.facts.derive(fact::spare_height,
                     *job.facts.get(fact::field_height) - *job.facts.get(fact::needed_height),
                     {&fact::field_height, &fact::needed_height});
    const double scale =
        std::min(*job.facts.get(fact::field_width) / *job.facts.get(fact::needed_width),
                 *job.facts.get(fact::field_height) / *job.facts.get(fact::needed_height));
    job.facts.derive(
        fact::ratio_that_fits,
        physics::rounded_smaller(Magnification{job.facts.get(fact::ratio)->value() * scale}),
        {&fact::ratio, &fact::field_width, &fact::needed_width, &fact::field_height,
         &fact::needed_height});
    const Magnification fits = *job.facts.get(fact::ratio_that_fits);
    const auto greatest = job.facts.get(fact::lens_greatest);
    job.facts.derive(fact::ratio_in_reach, greatest ? std::min(fits, *greatest) : fits,
                     {&fact::ratio_that_fits});
    const std::vector<const FactRow*> asked{&fact::ratio_that_fits, &fact::ratio_asked};
    job.facts.derive(fact::ratio_that_fits_asked, as_asked(job, fits), asked);
    job.facts.derive(fact::ratio_in_reach_asked,
                     as_asked(job, *job.facts.get(fact::ratio_in_reach)), asked);
  }
}

// Teeth ------------------------------------------------------------------------------------------

bool is_missing(const Job& job, physics::Tooth tooth) {
  const auto& gone = job.protocol.missing;
  return gone.known() && std::find(gone->begin(), gone->end(), tooth) != gone->end();
}

const physics::Crown* crown_of(const Job& job, physics::Tooth tooth) {
  if (!job.no_teeth.empty()) return nullptr;
  if (is_missing(job, tooth)) return nullptr;
  return physics::find_crown(job.anatomy->arch(tooth.is_upper()), tooth);
}

const physics::Crown* crown_at(const Job& job, physics::Tooth tooth) {
  const physics::Crown* crown = crown_of(job, tooth);
  const auto milk = tooth.predecessor();
  return crown == nullptr && milk ? crown_of(job, *milk) : crown;
}

Said the(model::AimedAt thing) {
  const bool that = thing == model::AimedAt::that_tooth || thing == model::AimedAt::that_site;
  return that ? term_of(thing) : phrase::the(term_of(thing));
}

Said the(const model::ThingShown& thing) {
  if (!thing.thing) return phrase::gum_of(thing.gum_of);
  const bool that =
      *thing.thing == model::Thing::that_tooth || *thing.thing == model::Thing::that_site;
  return that ? term_of(*thing.thing) : phrase::the(term_of(*thing.thing));
}

Said place_of(const model::Aim& aim) {
  if (aim.thing) return phrase::on(the(*aim.thing));
  if (aim.first == aim.second) return phrase::on(aim.first);
  return phrase::between(aim.first, aim.second);
}

Said name_or(const text::Sourced<std::string>& name, Said kind) {
  return name.known() && !name->empty() ? Said(name.get()) : std::move(kind);
}

model::Faces standing(const Job& job, const model::Faces& faces) {
  if (!job.view.every_tooth_present || !job.no_teeth.empty()) return faces;
  model::Faces out;
  for (model::NamedFace f : faces) {
    if (crown_of(job, f.tooth) == nullptr) {
      // A milk tooth stands where its successor will.
      const auto milk = f.tooth.predecessor();
      if (!milk || crown_of(job, *milk) == nullptr) continue;
      f.tooth = *milk;
    }
    out.push_back(f);
  }
  return out;
}

physics::Surface surface_of(model::Face face) {
  switch (face) {
  case model::Face::facial: return physics::Surface::facial;
  case model::Face::biting: return physics::Surface::biting;
  case model::Face::lingual: return physics::Surface::lingual;
  }
  return physics::Surface::facial;
}

physics::MouthState at_rest(const Job& job) {
  physics::MouthState mouth;
  mouth.anatomy = job.anatomy;
  if (job.protocol.missing.known()) mouth.missing = job.protocol.missing.get();
  return mouth;
}

std::optional<std::vector<physics::Wanted>> surfaces_of(const Job& job, const model::Faces& faces,
                                                        Said& missing) {
  std::vector<physics::Wanted> out;
  for (const model::NamedFace& f : standing(job, faces)) {
    if (crown_of(job, f.tooth) == nullptr) {
      missing = is_missing(job, f.tooth) ? missing::tooth_said_missing(f.tooth)
                : job.no_teeth.empty()
                    ? missing::place_in_mean_arch(f.tooth, term_of(job.anatomy->dentition))
                    : job.no_teeth;
      return std::nullopt;
    }
    out.push_back({f.tooth, surface_of(f.face)});
  }
  return out;
}

model::Face main_face(const model::View& view) {
  model::Face best = model::Face::lingual;
  if (!view.must_show.known()) return model::Face::facial;
  for (const model::NamedFace& f : view.must_show.get())
    best = std::min(best, f.face);
  return best;
}

namespace {

/// The jaw of a ridge without teeth.
std::optional<model::Jaw> ridge_shown(const model::View& view) {
  if (!view.things_shown.known()) return std::nullopt;
  std::optional<model::Jaw> out;
  for (const model::ThingShown& thing : view.things_shown.get()) {
    const bool upper = thing.thing == model::Thing::upper_ridge;
    if (!upper && thing.thing != model::Thing::lower_ridge) continue;
    const model::Jaw jaw = upper ? model::Jaw::upper : model::Jaw::lower;
    if (out && *out != jaw) return std::nullopt;
    out = jaw;
  }
  return out;
}

} // namespace

std::optional<model::Jaw> shown_jaw(const model::View& view) {
  if (!view.must_show.known() || view.must_show->empty()) return ridge_shown(view);
  const bool upper = view.must_show->front().tooth.is_upper();
  for (const model::NamedFace& f : view.must_show.get()) {
    if (f.tooth.is_upper() != upper) return std::nullopt;
  }
  return upper ? model::Jaw::upper : model::Jaw::lower;
}

} // namespace norma::plan
