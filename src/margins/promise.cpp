#include "margins/promise.hpp"

#include <algorithm>

#include "physics/optics.hpp"
#include "placing/depth.hpp"
#include "placing/lamp.hpp"
#include "placing/room.hpp"

namespace norma::margins {
namespace {

using placing::Shown;

/// Whether what must be sharp is, at the aperture that is set or else the narrowest.
bool is_sharp(const Standing& s) {
  if (!s.focus) return true;
  const physics::Axes& axes = s.pose.axes;
  const Length depth = physics::along(s.setting.camera.aim, axes.forward) + *s.focus;
  return placing::is_held(s.setting, placing::f_number_at(s.setting, axes, depth));
}

/// The teeth that lie out of the depth that this aperture holds.
std::vector<Tooth> not_sharp(const Standing& s) {
  const placing::Sharp& sharp = *s.setting.sharp;
  const physics::Axes& axes = s.pose.axes;
  const Length depth = physics::along(s.setting.camera.aim, axes.forward) + *s.focus;
  const physics::Depth held =
      physics::depth_of_field(sharp.set.value_or(sharp.narrowest), sharp.blur,
                              s.setting.camera.ratio, sharp.pupil_ratio, sharp.focal_length);
  std::vector<Tooth> out;
  for (const placing::FaceDepth& d :
       placing::depths_of(s.setting.mouth, sharp.surfaces, axes, sharp.band)) {
    if (depth - d.nearest > held.near || (held.far && d.farthest - depth > *held.far))
      out.push_back(d.tooth);
  }
  return out;
}

/// Of what must show.
std::vector<Tooth> cut_by_frame(const Standing& s) {
  const physics::Eye eye = placing::eye_of(s.setting, s.pose);
  const physics::Mouth& mouth = s.pose.mouth.mouth();
  std::vector<Tooth> out;
  for (const physics::Wanted& w : s.setting.wanted) {
    const physics::Crown* crown = physics::find_crown(mouth.crowns, w.tooth);
    if (crown == nullptr) continue;
    std::vector<physics::SurfacePoint> own;
    if (physics::cut_by_frame(physics::grid_of(mouth, *crown, w.surface, own), eye))
      out.push_back(w.tooth);
  }
  return out;
}

/// Whether what is seen of a surface breaks this promise.
bool breaks(const Standing& s, Promise promise, const Shown& one) {
  switch (promise) {
  case Promise::turned: return one.obliquity > s.setting.limits.turned;
  case Promise::in_mirror: return placing::cut_off(one);
  case Promise::seen: return !physics::enough_of(one);
  case Promise::lit: return placing::in_shadow(one);
  case Promise::clear:
  case Promise::fits:
  case Promise::framed:
  case Promise::sharp: break;
  }
  return false;
}
constexpr Promise of_look[] = {Promise::turned, Promise::in_mirror, Promise::seen, Promise::lit};

/// Is as much seen and lit as before? A camera that is turned where it stands sees the same, and
/// a ring around its axis lights the same.
bool sight_stays(const placing::Setting& setting, Error off) {
  const bool ring =
      setting.lamp && !setting.joined && setting.lamp->kind == placing::CameraLamp::Kind::ring;
  switch (off) {
  case Error::focus: return true;
  case Error::camera_roll: return ring || !placing::may_shade(setting);
  case Error::aim_across:
  case Error::aim_up: return !placing::may_shade(setting);
  default: return false;
  }
}

std::optional<Broken> because(Promise promise, std::vector<Tooth> teeth) {
  if (teeth.empty()) return std::nullopt;
  std::sort(teeth.begin(), teeth.end());
  teeth.erase(std::unique(teeth.begin(), teeth.end()), teeth.end());
  return Broken{promise, std::move(teeth)};
}

} // namespace

Judge::Judge(const Standing& planned, int pieces, bool may_lean) : pieces_(pieces) {
  if (!planned.pose.mirror || may_lean) return;
  std::vector<physics::Box> hard = placing::hard_bodies(planned.pose.mouth.mouth());
  if (!physics::runs_into(*planned.pose.mirror, hard)) hard_ = std::move(hard);
}

bool Judge::is_clear(const Standing& s) const {
  return !s.pose.mirror || !physics::runs_into(*s.pose.mirror, hard_);
}

std::vector<Shown> Judge::seen(const Standing& s, bool and_lit) const {
  const auto lamp = and_lit ? placing::lamp_of(s.setting, s.pose) : std::nullopt;
  return placing::look_as_needed(s.setting, s.pose, lamp ? &*lamp : nullptr, s.setting.wanted,
                                 {std::min(pieces_, physics::usual_pieces), pieces_});
}

std::optional<Broken> Judge::broken(const Standing& s) const {
  if (!is_clear(s)) return Broken{Promise::clear, {}};
  if (!placing::mirror_fits(s.setting, s.pose)) return Broken{Promise::fits, {}};
  if (auto out = because(Promise::framed, cut_by_frame(s))) return out;
  if (!is_sharp(s)) return Broken{Promise::sharp, not_sharp(s)};
  const auto of = [&](Promise promise, const std::vector<Shown>& all) {
    return because(
        promise, placing::teeth_of(all, [&](const Shown& one) { return breaks(s, promise, one); }));
  };
  const std::vector<Shown> all = seen(s, placing::may_shade(s.setting));
  for (const Promise promise : of_look) {
    if (auto out = of(promise, all)) return out;
  }
  return std::nullopt;
}

bool Judge::holds(const Standing& s, std::optional<Error> off) const {
  if (off && sight_stays(s.setting, *off)) return is_sharp(s) && cut_by_frame(s).empty();
  return !broken(s);
}

bool Judge::holds(const Standing& stands, const Broken& only) const {
  switch (only.promise) {
  case Promise::clear: return is_clear(stands);
  case Promise::fits: return placing::mirror_fits(stands.setting, stands.pose);
  case Promise::sharp: return is_sharp(stands);
  default: break;
  }
  Standing s = stands;
  std::erase_if(s.setting.wanted, [&](const physics::Wanted& w) {
    return std::find(only.teeth.begin(), only.teeth.end(), w.tooth) == only.teeth.end();
  });
  if (only.promise == Promise::framed) return cut_by_frame(s).empty();
  const std::vector<Shown> all = seen(s, only.promise == Promise::lit);
  return std::none_of(all.begin(), all.end(),
                      [&](const Shown& one) { return breaks(s, only.promise, one); });
}

} // namespace norma::margins
