#include "placing/mirror.hpp"

#include "placing/arch_mirror.hpp"
#include "placing/cheek_mirror.hpp"
#include "placing/lamp.hpp"
#include "placing/round_mirror.hpp"
#include "placing/tongue_mirror.hpp"

namespace norma::placing {

double worth_of_place(const Setting& setting, const Pose& pose) {
  constexpr double lamp_weighs = 0.5;
  return seen_in_all(look_at(setting, pose), shows_lamp(setting, pose) ? -lamp_weighs : 0);
}

std::optional<Pose> with_sheet(const Setting& setting, const Pose& pose, const Sheet& sheet) {
  switch (setting.mirror->use) {
  case MirrorUse::over_arch: return with_arch_mirror(setting, pose, sheet);
  case MirrorUse::in_cheek: {
    const bool right = setting.camera.azimuth > Angle{};
    auto found = search_cheek_mirror(setting, pose, right, sheet);
    return found ? std::optional(std::move(found->pose)) : std::nullopt;
  }
  case MirrorUse::round: {
    auto found = search_round_mirror(setting, pose, sheet.width);
    return found ? std::optional(std::move(found->pose)) : std::nullopt;
  }
  case MirrorUse::beside_tongue: break; // searched where it is placed
  }
  return std::nullopt;
}

std::optional<Pose> pose_of(const Setting& setting) {
  const Pose bare = bare_pose(setting);
  if (!setting.mirror) return bare;
  switch (setting.mirror->use) {
  case MirrorUse::over_arch:
  case MirrorUse::round: return with_sheet(setting, bare, setting.mirror->sheet);
  case MirrorUse::in_cheek: {
    auto found = place_cheek_mirror(setting, bare);
    return found ? std::optional(std::move(found->at.pose)) : std::nullopt;
  }
  case MirrorUse::beside_tongue: {
    auto found = place_tongue_mirror(setting, bare);
    return found && found->seen > 0 ? std::optional(std::move(found->pose)) : std::nullopt;
  }
  }
  return std::nullopt;
}

} // namespace norma::placing
