#include <algorithm>

#include "physics/extent.hpp"
#include "physics/optics.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

using physics::Point;

/// The place the protocol centres on: the middle of the biting edges of the teeth it names.
std::optional<Point> named_aim(Job& job) {
  if (!job.view.centre.known()) return std::nullopt;
  const model::Aim aim = job.view.centre.get();
  if (!aim.thing.empty()) return std::nullopt;
  const physics::Crown* first = crown_at(job, aim.first);
  const physics::Crown* second = crown_at(job, aim.second);
  if (first == nullptr || second == nullptr) return std::nullopt;
  const Point sum = first->edge + second->edge;
  return Point{sum.x / 2.0, sum.y / 2.0, sum.z / 2.0};
}

/// The middle of the points as they lie in the picture.
Point middle_of(const std::vector<physics::SurfacePoint>& points, const physics::Axes& axes) {
  const auto e = physics::extent_of(points, Point{}, axes, std::nullopt);
  const Length right = (e->right - e->left) / 2.0;
  const Length up = (e->up - e->down) / 2.0;
  const Length away = (e->away - e->towards) / 2.0;
  return axes.right * right + axes.up * up + axes.forward * away;
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
  bool upright = job.view.camera_held.known() && job.view.camera_held.get() == "upright";
  if (job.view.camera_held.absent()) {
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

/// What else lies in the frame is not modelled; fingers, saliva and the like nobody can foresee.
void open_not_shown(Job& job) {
  if (!job.view.must_not_show.known()) return;
  List things;
  for (const std::string& thing : job.view.must_not_show.get()) {
    for (const std::string_view placed :
         {"lips", "cheeks", "retractors", "mirror edge", "tongue", "nose"}) {
      if (thing == placed) things.items.emplace_back(thing);
    }
  }
  if (!things.items.empty())
    job.out.open.push_back({question::picture_free(things), missing::model_of_the_rest()});
}

} // namespace

namespace {

/// What must show, from the middle of the picture to its farthest edges; false (said in the facts)
/// where that is not known.
bool set_needed(Job& job) {
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
  if (job.view.centre.known() && !job.view.centre->thing.empty()) {
    job.facts.put(fact::aim, place_of(job.view.centre.get()));
    return unknown(missing::where_lies(the(job.view.centre->thing)));
  }
  if (job.view.things_shown.known())
    return unknown(missing::size_of(the(job.view.things_shown->front())));
  if (shown.absent()) return unknown(missing::what_must_show());
  if (shown.broken() || job.view.centre.broken()) return broken();
  const auto& axes = job.axes();
  if (!axes) {
    const Fact* azimuth = job.facts.find(fact::azimuth);
    if (azimuth != nullptr && azimuth->state == State::broken) return broken();
    return unknown(azimuth != nullptr && !azimuth->why.empty() ? azimuth->why
                                                               : missing::camera_looks_from());
  }
  Said missing;
  const auto points = points_of(job, shown.get(), missing);
  if (!points) return unknown(missing);
  job.aim_ = named_aim(job);
  job.facts.put(fact::aim,
                job.aim_ ? place_of(job.view.centre.get()) : phrase::on_middle_of_shown());
  if (!job.aim_) job.aim_ = middle_of(*points, *axes);
  const auto e =
      physics::extent_of(*points, *job.aim(), *axes, job.facts.get(fact::pupil_distance));
  job.facts.put(fact::needed_width, 2.0 * std::max(e->left, e->right));
  job.facts.put(fact::needed_height, 2.0 * std::max(e->up, e->down));
  return true;
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
  open_not_shown(job);
  choose_hold(job);
  turn_field(job);
  if (!set_needed(job)) return;
  choose_hold(job);
  turn_field(job);
  job.facts.work_out(fact::spare_width, difference, fact::field_width, fact::needed_width);
  if (job.facts.work_out(fact::spare_height, difference, fact::field_height, fact::needed_height))
    set_ratios_that_fit(job);
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

const physics::Crown* crown_at(const Job& job, physics::Tooth tooth) {
  const physics::Crown* crown = crown_of(job, tooth);
  const auto milk = tooth.predecessor();
  return crown == nullptr && milk ? crown_of(job, *milk) : crown;
}

Said the(const std::string& thing) {
  const std::size_t that = thing.find("that ");
  if (that != std::string::npos) return thing.substr(that);
  return thing.starts_with("gum ") ? Said(thing) : phrase::the(thing);
}

Said place_of(const model::Aim& aim) {
  if (!aim.thing.empty()) return phrase::on(the(aim.thing));
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

std::optional<std::vector<physics::SurfacePoint>>
points_of(const Job& job, const model::Faces& faces, Said& missing) {
  std::vector<physics::SurfacePoint> out;
  for (const model::NamedFace& f : standing(job, faces)) {
    const physics::Crown* crown = crown_of(job, f.tooth);
    if (crown == nullptr) {
      missing = is_missing(job, f.tooth) ? missing::tooth_said_missing(f.tooth)
                : job.no_teeth.empty()
                    ? missing::place_in_mean_arch(f.tooth, term_of(job.anatomy()->dentition))
                    : job.no_teeth;
      return std::nullopt;
    }
    const auto& grid = job.anatomy()->surface(*crown, surface_of(f.face));
    out.insert(out.end(), grid.begin(), grid.end());
  }
  if (out.empty() && !faces.empty()) {
    missing = missing::tooth_of_those_named();
    return std::nullopt;
  }
  return out;
}

Point face_centre(const physics::Crown& crown, physics::Surface surface) {
  return physics::surface_grid(crown, surface, 3)[4].at;
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
  for (const std::string& thing : view.things_shown.get()) {
    const bool upper = thing.find("upper ridge") != std::string::npos;
    if (!upper && thing.find("lower ridge") == std::string::npos) continue;
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
