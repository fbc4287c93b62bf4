#include "placing/outcome.hpp"

#include "placing/depth.hpp"
#include "placing/lamp.hpp"
#include "placing/mirror.hpp"
#include "placing/room.hpp"

namespace norma::placing {
namespace {

bool fits(const Setting& setting, const Pose& pose) {
  const bool over_arch = setting.mirror && setting.mirror->use == MirrorUse::over_arch;
  if (!over_arch || !setting.opening) return true;
  const auto other_jaw = other_jaw_at(pose, *setting.opening);
  const auto corners = room_at_corners(pose);
  return other_jaw && clears(*pose.mirror, *other_jaw) &&
         (!corners || corners->mirror <= corners->between);
}

} // namespace

std::optional<Outcome> outcome_of(const Setting& setting) {
  auto pose = pose_of(setting);
  if (!pose) return std::nullopt;
  Outcome out{std::move(*pose), {}, {}, {}};
  const auto lamp = lamp_of(setting, out.pose);
  out.shown = look_at(setting, out.pose, lamp ? &*lamp : nullptr);
  out.margins = margins_of(setting, out.pose);
  out.lamp_in_mirror = shows_lamp(setting, out.pose);
  const Holding holding = f_number_for(setting, out.pose.axes);
  out.f_number_needed = holding.needed;

  const auto every = [&](auto which) {
    return std::all_of(out.shown.begin(), out.shown.end(), which);
  };
  out.seen = shows_all(out.shown);
  out.turned = !every([&](const Shown& s) { return s.obliquity <= setting.limits.turned; });
  out.framed = every([](const Shown& s) { return !cut_by_frame(s); });
  out.sharp =
      !holding.asked ||
      (holding.needed && *holding.needed <= setting.sharp->set.value_or(setting.sharp->narrowest));
  // A lamp around the lens lights what the lens sees.
  const bool around =
      setting.lamp && !setting.joined && setting.lamp->kind == CameraLamp::Kind::built_in;
  out.lit = around || every([](const Shown& s) { return !in_shadow(s); });
  out.fits = fits(setting, out.pose);
  return out;
}

} // namespace norma::placing
