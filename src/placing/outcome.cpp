#include "placing/outcome.hpp"

#include "placing/depth.hpp"
#include "placing/lamp.hpp"
#include "placing/mirror.hpp"
#include "placing/room.hpp"

namespace norma::placing {
std::optional<Outcome> outcome_of(const Setting& setting) {
  auto pose = pose_of(setting);
  if (!pose) return std::nullopt;
  Outcome out{std::move(*pose), {}, {}, {}};
  const auto lamp = may_shade(setting) ? lamp_of(setting, out.pose) : std::nullopt;
  out.shown = look_as_needed(setting, out.pose, lamp ? &*lamp : nullptr, setting.wanted, {});
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
  out.sharp = is_held(setting, holding);
  out.lit = !may_shade(setting) || every([](const Shown& s) { return !in_shadow(s); });
  out.fits = mirror_fits(setting, out.pose);
  return out;
}

} // namespace norma::placing
