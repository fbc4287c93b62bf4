#include <algorithm>

#include "facts/mouth_terms.hpp"
#include "physics/optics.hpp"
#include "placing/surfaces.hpp"
#include "plan/job.hpp"
#include "words/teeth.hpp"

namespace norma::plan {
namespace {

using physics::Point;

/// The place the protocol centres on, that tooth taken as this one.
std::optional<Point> named_aim(Job& job, std::optional<physics::Tooth> tooth) {
  if (!job.view.centre.known()) return std::nullopt;
  const auto centred = centred_on(job, with_that_tooth(job.view.centre.get(), tooth));
  return centred ? placing::middle_of(at_rest(job), *centred, *job.axes()) : std::nullopt;
}

/// The field of a camera that is held level; nothing where it is not known.
std::optional<Size> level_field(Job& job) {
  const auto ratio = job.facts.get(fact::ratio);
  const auto sensor = job.facts.get(fact::sensor);
  if (!ratio || !sensor) return std::nullopt;
  return physics::field(*sensor, *ratio);
}

/// Level unless the teeth fit upright only.
void choose_hold(Job& job) {
  const Recording one(job.facts);
  bool upright = job.view.camera_held.known() && job.view.camera_held.get() == CameraHeld::upright;
  // A field that is asked for as it is wide is that of a camera held level.
  if (job.view.camera_held.absent() && !job.view.field.known()) {
    const auto field = level_field(job);
    const auto width = job.facts.get(fact::needed_width);
    const auto height = job.facts.get(fact::needed_height);
    if (field && width && height) {
      const bool fits_level = *width <= field->width && *height <= field->height;
      const bool fits_upright = *width <= field->height && *height <= field->width;
      upright = !fits_level && fits_upright;
    }
  }
  job.facts.put(fact::camera_held, upright ? CameraHeld::upright : CameraHeld::level);
}

/// The field as the camera is held.
void turn_field(Job& job) {
  const Recording one(job.facts);
  if (job.facts.get(fact::camera_held) != CameraHeld::upright) return;
  const auto field = level_field(job);
  if (!field) return;
  job.facts.put(fact::field_width, field->height);
  job.facts.put(fact::field_height, field->width);
}

} // namespace

namespace {

/// What must show with that tooth taken as this one.
struct NeededFor {
  physics::Tooth tooth;
  Length width;
  Length height;
};

/// What must show, from the middle of the picture to its farthest edges: the most that any tooth
/// takes that it may be; false (said in the facts) where that is not known.
bool set_needed(Job& job, std::vector<NeededFor>& of_teeth) {
  const Recording one(job.facts);
  const text::Sourced<model::Faces>& shown = job.view.must_show;
  const auto unknown = [&](const Said& missing) {
    job.facts.put_unknown(fact::needed_width, missing);
    job.facts.put_unknown(fact::needed_height, missing);
    return false;
  };
  const auto broken = [&] {
    job.facts.put_broken(fact::needed_width);
    job.facts.put_broken(fact::needed_height);
    return false;
  };
  const std::vector<std::optional<physics::Tooth>> teeth = taken_as(job);
  const auto faces = [&](std::optional<physics::Tooth> tooth) {
    return with_that_tooth(job, shown, job.view.things_shown, tooth);
  };
  const bool any_tooth = !teeth.empty() && teeth.front().has_value();
  if (job.view.centre.known() && job.view.centre->thing &&
      !(any_tooth && job.view.centre->thing == model::AimedAt::that_tooth)) {
    job.facts.put_asked(fact::aim, place_of(job.view.centre.get()));
    return unknown(missing::where_lies(the(*job.view.centre->thing)));
  }
  if (shown.absent() && (!any_tooth || faces(teeth.front()).empty())) {
    return unknown(job.view.things_shown.known()
                       ? missing::size_of(the(job.view.things_shown->front()))
                       : missing::what_must_show());
  }
  if (shown.broken() || job.view.centre.broken()) return broken();
  const auto& axes = job.axes();
  if (!axes) {
    const Fact* azimuth = job.facts.find(fact::azimuth);
    if (azimuth != nullptr && azimuth->state == State::broken) return broken();
    return unknown(azimuth != nullptr && !azimuth->why.empty() ? azimuth->why
                                                               : missing::camera_looks_from());
  }
  const physics::MouthState mouth = at_rest(job);
  Length width;
  Length height;
  bool said = false;
  for (const auto& tooth : teeth) {
    const NamedSurfaces named = surfaces_of(job, faces(tooth));
    if (named.placed.empty()) return unknown(named.why_none(missing::tooth_of_those_named));
    const auto centre = named_aim(job, tooth);
    if (!said) {
      job.facts.put_asked(fact::aim,
                          centre ? place_of(job.view.centre.get()) : phrase::on_middle_of_shown());
      said = true;
    }
    job.aim_ = centre ? centre : placing::middle_of(mouth, named.placed, *axes);
    const auto e = placing::extent_of(mouth, named.placed, *job.aim(), *axes,
                                      job.facts.get(fact::pupil_distance));
    const Length across = 2.0 * std::max(e->left, e->right);
    const Length up = 2.0 * std::max(e->up, e->down);
    if (tooth) of_teeth.push_back({*tooth, across, up});
    width = std::max(width, across);
    height = std::max(height, up);
  }
  // Which of them the camera looks at, nobody knows.
  if (any_tooth) job.aim_.reset();
  job.facts.put(fact::needed_width, width);
  job.facts.put(fact::needed_height, height);
  return true;
}

/// For which of the teeth that it may be what must show fits.
void tell_teeth_that_fit(Job& job, const std::vector<NeededFor>& of_teeth) {
  if (of_teeth.empty()) return;
  const Recording one(job.facts);
  job.facts.get(fact::needed_width);
  job.facts.get(fact::needed_height);
  const auto width = job.facts.get(fact::field_width);
  const auto height = job.facts.get(fact::field_height);
  if (!width || !height) return;
  diag::Teeth fits;
  diag::Teeth others;
  for (const NeededFor& t : of_teeth)
    (t.width <= *width && t.height <= *height ? fits : others).push_back(t.tooth);
  if (!fits.empty()) job.facts.put(fact::fits_for, fits);
  if (!others.empty()) job.facts.put(fact::does_not_fit_for, others);
}

/// In how many mouths does what must show fit? Not asked where it does with room for other mouths.
void set_fits_in_mouths(Job& job) {
  const Recording one(job.facts);
  const auto width = job.facts.get(fact::spare_width);
  const auto height = job.facts.get(fact::spare_height);
  const auto needed_width = job.facts.get(fact::needed_width);
  const auto needed_height = job.facts.get(fact::needed_height);
  if (!width || !height || job.facts.has(fact::fits_unrounded)) return;
  constexpr double unlike = 0.2; // wider than nearly all: more than two and a half spreads
  if (*width > unlike * *needed_width && *height > unlike * *needed_height) return;
  if (job.many_mouths().empty()) return; // there is no arch of such sizes
  const Length across = *job.facts.get(fact::field_width);
  const Length up = *job.facts.get(fact::field_height);
  const auto away = job.facts.get(fact::pupil_distance);
  struct Taken {
    std::vector<physics::Wanted> placed;
    std::optional<placing::Centred> on;
  };
  std::vector<Taken> taken;
  for (const auto& tooth : taken_as(job)) {
    Taken t;
    t.placed =
        surfaces_of(job, with_that_tooth(job, job.view.must_show, job.view.things_shown, tooth))
            .placed;
    if (job.view.centre.known())
      t.on = centred_on(job, with_that_tooth(job.view.centre.get(), tooth));
    taken.push_back(std::move(t));
  }
  physics::MouthState mouth = at_rest(job);
  const InMouths in = in_mouths(job.many_mouths(), Counts::sizes, [&](const mouths::Drawn& drawn) {
    mouth.anatomy = drawn.anatomy;
    return std::all_of(taken.begin(), taken.end(), [&](const Taken& t) {
      auto aim = t.on ? placing::middle_of(mouth, *t.on, *job.axes()) : std::nullopt;
      if (!aim) aim = placing::middle_of(mouth, t.placed, *job.axes());
      const auto e =
          aim ? placing::extent_of(mouth, t.placed, *aim, *job.axes(), away) : std::nullopt;
      return e && 2.0 * std::max(e->left, e->right) <= across &&
             2.0 * std::max(e->up, e->down) <= up;
    });
  });
  job.facts.note(Status::assumed); // some spreads and how they hang together are
  job.facts.put(fact::fits_in_mouths, in.of_hundred);
  if (in.by) job.facts.put(fact::fits_hangs_on, facts::term_of(*in.by));
}

/// Does it fit at the ratio that norma has rounded? Then the rounding is at fault.
void set_fits_unrounded(Job& job) {
  const Recording one(job.facts);
  const auto width = job.facts.get(fact::spare_width);
  const auto height = job.facts.get(fact::spare_height);
  if (!width || !height || (*width >= Length{} && *height >= Length{})) return;
  const auto exact = job.facts.get(fact::ratio_exact);
  const Magnification ratio = *job.facts.get(fact::ratio);
  if (!exact || *exact >= ratio) return;
  const double wider = ratio.value() / exact->value();
  const bool fits =
      *job.facts.get(fact::needed_width) <= wider * *job.facts.get(fact::field_width) &&
      *job.facts.get(fact::needed_height) <= wider * *job.facts.get(fact::field_height);
  if (fits) job.facts.put(fact::fits_unrounded, *exact);
}

constexpr auto difference = [](Length there_is, Length needed) { return there_is - needed; };

/// The ratio at which it fits, on the kit's sensor and as the protocol would ask for it.
void set_ratios_that_fit(Job& job) {
  job.facts.work_out(
      fact::ratio_that_fits,
      [](Magnification m, Length width, Length need_width, Length height, Length need_height) {
        return physics::rounded_smaller(
            Magnification{m.value() * std::min(width / need_width, height / need_height)});
      },
      fact::ratio, fact::field_width, fact::needed_width, fact::field_height, fact::needed_height);
  const Recording one(job.facts);
  const Magnification fits = *job.facts.get(fact::ratio_that_fits);
  {
    const Recording reach(job.facts);
    const auto greatest = job.facts.get(fact::lens_greatest);
    job.facts.put(fact::ratio_in_reach, greatest ? std::min(fits, *greatest) : fits);
  }
  job.facts.put(fact::ratio_that_fits_asked, as_asked(job, fits));
  job.facts.put(fact::ratio_in_reach_asked, as_asked(job, *job.facts.get(fact::ratio_in_reach)));
}

} // namespace

void plan_framing(Job& job) {
  if (job.view.third_shown) job.open(question::third_seen, missing::thirds());
  if (job.view.must_show.known() || job.view.shows(model::Thing::that_tooth))
    open_items(job, question::item_shown, job.view.must_show, job.view.things_shown);
  choose_hold(job);
  turn_field(job);
  std::vector<NeededFor> of_teeth;
  if (!set_needed(job, of_teeth)) return;
  choose_hold(job);
  turn_field(job);
  tell_teeth_that_fit(job, of_teeth);
  job.facts.work_out(fact::spare_width, difference, fact::field_width, fact::needed_width);
  if (!job.facts.work_out(fact::spare_height, difference, fact::field_height, fact::needed_height))
    return;
  set_ratios_that_fit(job);
  set_fits_unrounded(job);
  set_fits_in_mouths(job);
}

// Teeth ------------------------------------------------------------------------------------------

bool is_missing(const Job& job, physics::Tooth tooth) {
  const auto& gone = job.protocol.missing;
  return gone.known() && std::find(gone->begin(), gone->end(), tooth) != gone->end();
}

const physics::Crown* crown_of(const Job& job, physics::Tooth tooth) {
  if (!job.no_teeth.empty()) return nullptr;
  if (is_missing(job, tooth)) return nullptr;
  return physics::find_crown(job.anatomy()->arch(tooth.is_upper()), tooth);
}

namespace {

/// The crown of a tooth; of the milk tooth where the permanent one is not there yet, and of that
/// one where it is there already.
const physics::Crown* crown_at(const Job& job, physics::Tooth tooth) {
  const physics::Crown* crown = crown_of(job, tooth);
  if (crown != nullptr) return crown;
  const auto other = tooth.is_primary() ? tooth.successor() : tooth.predecessor();
  return other ? crown_of(job, *other) : nullptr;
}

} // namespace

std::optional<placing::TeethPair> pair_of(const Job& job, const model::Aim& aim) {
  if (aim.thing) return std::nullopt;
  const physics::Crown* first = crown_at(job, aim.first);
  const physics::Crown* second = crown_at(job, aim.second);
  if (first == nullptr || second == nullptr) return std::nullopt;
  return placing::TeethPair{first->tooth, second->tooth};
}

std::optional<placing::Centred> centred_on(const Job& job, const model::Aim& aim) {
  if (!pair_of(job, aim)) return std::nullopt;
  // Across the jaws there is no run: both of them.
  const auto run = words::run_of(aim.first, aim.second)
                       .value_or(std::vector<physics::Tooth>{aim.first, aim.second});
  placing::Centred out;
  for (const physics::Tooth tooth : run) {
    const physics::Crown* crown = crown_at(job, tooth);
    if (crown != nullptr) out.run.push_back({crown->tooth, surface_of(main_face(job.view))});
  }
  return out;
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
    // A milk tooth stands where its successor will, and the permanent one where it stood.
    const physics::Crown* crown = crown_at(job, f.tooth);
    if (crown == nullptr) continue;
    f.tooth = crown->tooth;
    if (std::find(out.begin(), out.end(), f) == out.end()) out.push_back(f);
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

physics::Band band_of(std::optional<model::Third> third) {
  if (!third) return {};
  const double from = static_cast<int>(*third) / 3.0;
  return {from, from + 1.0 / 3.0};
}

physics::MouthState at_rest(const Job& job) {
  physics::MouthState mouth;
  mouth.anatomy = job.anatomy();
  if (job.protocol.missing.known()) mouth.missing = job.protocol.missing.get();
  return mouth;
}

NamedSurfaces surfaces_of(const Job& job, const model::Faces& faces) {
  NamedSurfaces out;
  diag::Teeth gone;
  for (const model::NamedFace& f : standing(job, faces)) {
    if (crown_of(job, f.tooth) != nullptr) {
      out.placed.push_back({f.tooth, surface_of(f.face)});
      continue;
    }
    diag::Teeth& teeth = is_missing(job, f.tooth) ? gone : out.unplaced;
    if (std::find(teeth.begin(), teeth.end(), f.tooth) == teeth.end()) teeth.push_back(f.tooth);
  }
  if (!out.unplaced.empty()) {
    out.missing = job.no_teeth.empty()
                      ? missing::place_in_mean_arch(out.unplaced, term_of(job.anatomy()->dentition))
                      : job.no_teeth;
  } else if (!gone.empty()) {
    out.missing = missing::tooth_said_missing(gone);
  }
  return out;
}

std::vector<std::optional<physics::Tooth>> taken_as(const Job& job) {
  std::vector<std::optional<physics::Tooth>> out;
  if (job.view.speaks_of_that_tooth() && job.no_teeth.empty()) {
    std::vector<physics::Tooth> teeth = job.view.tooth_may_be;
    if (teeth.empty()) {
      for (const bool upper : {true, false}) {
        for (const physics::Crown& crown : job.anatomy_->arch(upper))
          teeth.push_back(crown.tooth);
      }
    }
    for (const physics::Tooth tooth : teeth) {
      if (const physics::Crown* crown = crown_at(job, tooth)) out.emplace_back(crown->tooth);
    }
  }
  if (out.empty()) out.emplace_back();
  return out;
}

model::Faces with_that_tooth(const Job& job, const text::Sourced<model::Faces>& faces,
                             const text::Sourced<std::vector<model::ThingShown>>& things,
                             std::optional<physics::Tooth> tooth) {
  model::Faces out = faces.known() ? faces.get() : model::Faces();
  if (!tooth || !things.known()) return out;
  for (const model::ThingShown& thing : things.get()) {
    if (thing.thing == model::Thing::that_tooth)
      out.push_back({thing.surface.value_or(main_face(job.view)), *tooth});
  }
  return out;
}

model::Aim with_that_tooth(const model::Aim& aim, std::optional<physics::Tooth> tooth) {
  if (!tooth || aim.thing != model::AimedAt::that_tooth) return aim;
  return {*tooth, *tooth};
}

void open_items(Job& job, const diag::Sentence<1>& question,
                const text::Sourced<model::Faces>& faces,
                const text::Sourced<std::vector<model::ThingShown>>& things) {
  const Recording apart(job.facts);
  if (things.known()) {
    const bool placed = taken_as(job).front().has_value();
    for (const model::ThingShown& thing : things.get()) {
      if (placed && thing.thing == model::Thing::that_tooth) continue;
      job.out.open.push_back({question(the(thing)), missing::size_of(the(thing))});
    }
  }
  if (!faces.known()) return;
  const NamedSurfaces surfaces = surfaces_of(job, faces.get());
  // Those that the protocol says are missing are a finding.
  if (!surfaces.placed.empty() && !surfaces.unplaced.empty())
    job.out.open.push_back({question(surfaces.unplaced), surfaces.missing});
}

model::Face main_face(const model::View& view) {
  model::Face best = model::Face::lingual;
  if (!view.must_show.known()) {
    // Of that tooth.
    if (!view.things_shown.known()) return model::Face::facial;
    for (const model::ThingShown& thing : view.things_shown.get()) {
      if (thing.surface) return *thing.surface;
    }
    return model::Face::facial;
  }
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
