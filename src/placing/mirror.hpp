// What the searches for a mirror's place share, and one question for all of them.
#pragma once

#include "placing/pose.hpp"

namespace norma::placing {

/// So much more of a surface is no reason to prefer a place that comes later.
inline constexpr double a_hair = 0.05;
/// What of the surfaces a place of the mirror shows, as a sum of shares of what is turned to the
/// lens. The lamp in the picture weighs as much as half a tooth.
double worth_of_place(const Setting& setting, const Pose& pose);
/// No place is worth more: all of every surface.
inline double most_worth(const Setting& setting) {
  return static_cast<double>(setting.wanted.size());
}

/// The pose with a mirror of the setting's use in a place of its own; nothing where it has none,
/// and beside the tongue, where another one is searched with the setting's own.
std::optional<Pose> with_sheet(const Setting& setting, const Pose& pose, const Sheet& sheet);

/// Where all of a setting stands; nothing where its mirror has no place.
std::optional<Pose> pose_of(const Setting& setting);

} // namespace norma::placing
