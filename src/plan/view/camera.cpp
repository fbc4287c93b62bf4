#include <algorithm>
#include <cmath>
#include <optional>

#include "physics/mirror.hpp"
#include "placing/setting.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// A camera that looks at the teeth without a mirror.
void direct_camera(Job& job) {
  const model::View& view = job.view;
  const Recording one(job.facts);
  if (!view.camera.known()) job.facts.note(Status::assumed);
  const model::CameraPlace place = view.camera.value_or({});
  const bool behind =
      view.operator_place.known() && view.operator_place.get() == model::OperatorPlace::behind_head;
  const Angle roll = (place.upside_down != behind ? 180.0 : 0.0) * degree;
  job.facts.put(fact::azimuth, place.signed_azimuth());
  job.facts.put(fact::elevation, place.elevation);
  job.facts.put(fact::roll, roll);
  job.axes_ = physics::camera_axes(place.signed_azimuth(), place.elevation, roll);
}

/// A camera that sees an arch in a mirror. Where the protocol gives no place for the camera it
/// stands square to the arch in the mirror.
void arch_mirror_camera(Job& job) {
  const model::View& view = job.view;
  const auto jaw = shown_jaw(view);
  if (!jaw) {
    job.facts.put_unknown(fact::elevation, missing::jaw_in_mirror());
    return;
  }
  const bool upper = *jaw == model::Jaw::upper;
  const bool behind =
      view.operator_place.known() && view.operator_place.get() == model::OperatorPlace::behind_head;
  const bool over = view.camera.known() && view.camera->upside_down;
  const Angle roll = (behind != over ? 180.0 : 0.0) * degree;
  const Angle azimuth = view.camera.known() ? view.camera->signed_azimuth() : Angle{};
  job.facts.put(fact::azimuth, azimuth);
  {
    const Recording one(job.facts);
    const Angle opened = *job.facts.get(fact::mirror_angle);
    Angle elevation = physics::camera_elevation(opened) * (upper ? 1.0 : -1.0);
    if (view.camera.known() && view.camera->elevation != Angle{})
      elevation = view.camera->elevation;
    const physics::Axes camera = physics::camera_axes(azimuth, elevation, roll);
    job.axes_ = physics::in_mirror(camera, physics::arch_mirror_normal(upper, opened));
    job.facts.put(fact::elevation,
                  std::asin(std::clamp(-job.axes_->forward.z, -1.0, 1.0)) * radian);
  }
  job.facts.put(fact::roll, roll);
}

/// Which way the faces of what must show look, taken together; nothing (said in the facts) where
/// there is nothing to look at.
std::optional<physics::Vec> faces_of_shown(Job& job) {
  if (!job.view.must_show.known() || !job.no_teeth.empty()) {
    job.facts.put_unknown(fact::azimuth,
                          job.no_teeth.empty() ? missing::must_show() : job.no_teeth);
    return std::nullopt;
  }
  physics::Vec out;
  for (const model::NamedFace& f : job.view.must_show.get()) {
    if (const physics::Crown* crown = crown_of(job, f.tooth)) out = out + crown->facial;
  }
  return out;
}

/// The camera's image in a mirror looks level from the side that `from` points to.
void look_square(Job& job, const physics::Vec& from) {
  const placing::SquareLook look = placing::square_to(from);
  job.facts.note(Status::assumed);
  job.facts.put(fact::azimuth, look.azimuth);
  job.facts.put(fact::elevation, Angle{});
  job.facts.put(fact::roll, Angle{});
  job.axes_ = look.axes;
}

/// A side view by a mirror between cheek and teeth: its image looks square at the named teeth.
void buccal_mirror_camera(Job& job) {
  const Recording one(job.facts);
  const auto faces = faces_of_shown(job);
  if (!faces) return;
  if (physics::norm(*faces) < 1e-6) {
    job.facts.put_unknown(fact::azimuth, missing::one_side());
    return;
  }
  look_square(job, *faces);
}

/// A mirror inside of the arch: its image looks square at tongue sides. Where it stands is known
/// for those teeth alone for whose faces `known_place` holds.
void inner_mirror_camera(Job& job, bool (*known_place)(const physics::Vec& faces)) {
  const Recording one(job.facts);
  const auto faces = faces_of_shown(job);
  if (!faces) return;
  const model::Faces& shown = job.view.must_show.get();
  const bool lingual = std::all_of(shown.begin(), shown.end(), [](const model::NamedFace& f) {
    return f.face == model::Face::lingual;
  });
  if (!lingual || !shown_jaw(job.view) || !known_place(*faces)) {
    job.facts.put_unknown(fact::azimuth, missing::place_of_mirror());
    return;
  }
  look_square(job, -*faces);
}

/// Beside the tongue: the back teeth of one side.
void lingual_mirror_camera(Job& job) {
  inner_mirror_camera(job, [](const physics::Vec& faces) {
    constexpr double mostly = 0.7;
    return std::abs(faces.x) >= mostly * physics::norm(faces);
  });
}

/// A round one behind the front teeth.
void disc_mirror_camera(Job& job) {
  inner_mirror_camera(job, [](const physics::Vec& faces) {
    constexpr double mostly = 0.5;
    return faces.y <= -1e-6 && std::abs(faces.x) <= mostly * -faces.y;
  });
}

} // namespace

void plan_camera(Job& job) {
  const model::View& view = job.view;
  if (view.camera.broken() || view.mirror.broken() || view.must_show.broken()) {
    job.facts.put_broken(fact::azimuth);
    return;
  }
  if (!view.taken_in_mirror) {
    direct_camera(job);
    return;
  }
  if (!view.mirror.known()) {
    job.facts.put_unknown(fact::azimuth, missing::which_mirror());
    return;
  }
  const model::Mirror& mirror = view.mirror.get();
  if (mirror.opened) {
    job.facts.put(fact::mirror_angle, *mirror.opened);
  } else if (mirror.use == model::MirrorUse::occlusal) {
    job.facts.give(fact::mirror_angle, physics::defaults::mirror_angle);
  }
  const bool searched =
      mirror.use == model::MirrorUse::lingual || mirror.use == model::MirrorUse::disc;
  if (mirror.opened && searched) {
    const Recording apart(job.facts);
    job.out.open.push_back({question::mirror_stands_so(*mirror.opened), missing::given_opening()});
  }
  if (view.camera.known() && mirror.use != model::MirrorUse::occlusal) {
    job.open(question::mirror_shows_camera, missing::given_camera());
  }
  switch (mirror.use) {
  case model::MirrorUse::occlusal: arch_mirror_camera(job); return;
  case model::MirrorUse::buccal: buccal_mirror_camera(job); return;
  case model::MirrorUse::disc: disc_mirror_camera(job); return;
  case model::MirrorUse::lingual: lingual_mirror_camera(job); return;
  }
}

} // namespace norma::plan
